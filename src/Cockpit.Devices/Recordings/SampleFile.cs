using System.Buffers.Binary;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>Writes samples into a recording: SigMF, WAV, RF64 or bare, by the ending of its name.</summary>
/// <remarks>Sizes are written at the end; until then the head of a WAV says 0 and that of an RF64 "unknown", as recorders do.</remarks>
public sealed class SampleFile : IDisposable
{
    private readonly FileStream _file;
    private readonly Head _head;
    private readonly int _headBytes;

    private SampleFile(FileStream file, Head head, int headBytes)
    {
        _file = file;
        _head = head;
        _headBytes = headBytes;
    }

    private enum Head
    {
        None,
        Riff,
        Rf64,
    }

    /// <summary>The name without its ending.</summary>
    public static string StemOf(string path) => Path.Combine(Path.GetDirectoryName(path) ?? "", Path.GetFileNameWithoutExtension(path));

    /// <summary>Begins a recording.</summary>
    /// <param name="path">The file; of a SigMF recording its description.</param>
    /// <param name="layout">What the samples are.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static SampleFile Create(string path, SampleLayout layout)
    {
        string ending = Path.GetExtension(path);
        bool sigmf = ending is SigmfMeta.MetaEnding or SigmfMeta.DataEnding;
        if (sigmf)
        {
            File.WriteAllBytes(StemOf(path) + SigmfMeta.MetaEnding, SigmfDescription.Of(layout, [new SigmfCapture(0, layout.Start)], []));
        }

        FileStream file = new(sigmf ? StemOf(path) + SigmfMeta.DataEnding : path, FileMode.Create, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete);
        Head head = ending switch { ".wav" => Head.Riff, ".rf64" => Head.Rf64, _ => Head.None };
        byte[] bytes = head == Head.None ? [] : WaveHead(head, layout);
        file.Write(bytes);
        return new SampleFile(file, head, bytes.Length);
    }

    /// <summary>Writes samples.</summary>
    public void Write(ReadOnlySpan<byte> samples) => _file.Write(samples);

    /// <summary>Hands to the system what is written so far.</summary>
    public void Flush() => _file.Flush();

    /// <summary>Writes the sizes into the head.</summary>
    public void Finish()
    {
        long data = _file.Length - _headBytes;
        if (_head == Head.Riff)
        {
            Put(4, (uint)Math.Min(_file.Length - 8, uint.MaxValue));
            Put(_headBytes - 4, (uint)Math.Min(data, uint.MaxValue));
        }
        else if (_head == Head.Rf64)
        {
            Put(20, (ulong)(_file.Length - 8));
            Put(28, (ulong)data);
        }

        _file.Flush();
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private void Put(long at, uint value)
    {
        Span<byte> bytes = stackalloc byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        _file.Position = at;
        _file.Write(bytes);
    }

    private void Put(long at, ulong value)
    {
        Put(at, (uint)value);
        Put(at + 4, (uint)(value >> 32));
    }

    private static byte[] WaveHead(Head head, SampleLayout layout)
    {
        bool whole = layout.Format is SampleFormat.Cu8 or SampleFormat.Ci16Le or SampleFormat.Ci24Le or SampleFormat.Ci32Le;
        if (!whole && layout.Format != SampleFormat.Cf32Le)
        {
            throw new IOException("a WAV file holds cu8, ci16, ci24, ci32 or cf32, least significant byte first; choose one of them, or another ending");
        }

        ushort align = (ushort)layout.Format.BytesPerSample();
        uint rate = (uint)Math.Round(layout.SampleRate);
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        writer.Write(head == Head.Riff ? "RIFF"u8 : "RF64"u8);
        writer.Write(head == Head.Riff ? 0 : uint.MaxValue);
        writer.Write("WAVE"u8);
        if (head == Head.Rf64)
        {
            writer.Write("ds64"u8);
            writer.Write(28);
            writer.Write(new byte[28]);
        }

        writer.Write("fmt "u8);
        writer.Write(16);
        writer.Write((ushort)(whole ? 1 : 3));
        writer.Write((ushort)2);
        writer.Write(rate);
        writer.Write(rate * align);
        writer.Write(align);
        writer.Write((ushort)(align * 4));
        writer.Write("data"u8);
        writer.Write(head == Head.Riff ? 0 : uint.MaxValue);
        writer.Flush();
        return bytes.ToArray();
    }
}
