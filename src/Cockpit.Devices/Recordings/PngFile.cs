using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Cockpit.Devices.Journal;

namespace Cockpit.Devices.Recordings;

/// <summary>Writes a grey picture as a PNG file; the file appears only when it is whole.</summary>
/// <remarks>Source: ISO/IEC 15948 (PNG, second edition). Eight bits a sample, filter Sub.</remarks>
public static class PngFile
{
    private static ReadOnlySpan<byte> Signature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Writes it.</summary>
    /// <param name="path">The file; replaced if it is there.</param>
    /// <param name="width">Samples of a line.</param>
    /// <param name="height">Lines.</param>
    /// <param name="fill">Fills one line, 0 black to 255 white.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void WriteGrey(string path, int width, int height, Action<int, Span<byte>> fill)
    {
        string unfinished = path + ".part";
        try
        {
            using (FileStream file = new(unfinished, FileMode.Create, FileAccess.Write))
            {
                file.Write(Signature);
                byte[] head = new byte[13];
                BinaryPrimitives.WriteInt32BigEndian(head, width);
                BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
                head[8] = 8;
                WriteChunk(file, "IHDR", head);
                WriteChunk(file, "IDAT", Compress(width, height, fill));
                WriteChunk(file, "IEND", []);
            }

            File.Move(unfinished, path, overwrite: true);
        }
        finally
        {
            File.Delete(unfinished);
        }
    }

    private static byte[] Compress(int width, int height, Action<int, Span<byte>> fill)
    {
        const byte Sub = 1;
        using MemoryStream packed = new();
        using (ZLibStream zip = new(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            byte[] line = new byte[width];
            byte[] filtered = new byte[width + 1];
            for (int y = 0; y < height; y++)
            {
                Array.Clear(line);
                fill(y, line);
                filtered[0] = Sub;
                filtered[1] = line[0];
                for (int x = 1; x < width; x++)
                {
                    filtered[x + 1] = (byte)(line[x] - line[x - 1]);
                }

                zip.Write(filtered);
            }
        }

        return packed.ToArray();
    }

    private static void WriteChunk(Stream file, string type, ReadOnlySpan<byte> body)
    {
        byte[] chunk = new byte[4 + body.Length];
        Encoding.ASCII.GetBytes(type, chunk);
        body.CopyTo(chunk.AsSpan(4));
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, body.Length);
        file.Write(number);
        file.Write(chunk);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc32.Of(chunk));
        file.Write(number);
    }
}
