using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Cockpit.Core.Dsp;

namespace Cockpit.Core.Formats.Recordings;

/// <summary>The head of a WAV file: RIFF, RF64 or BW64; also of one that is still being written or whose sizes are wrong.</summary>
/// <remarks>
/// Sources: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991); EBU Tech 3306 (RF64); ITU-R BS.2088 (BW64).
/// A recorder writes the sizes at the end or never, and 32 bits hold 4 GiB: where the file goes on behind the size told and no other chunk
/// follows there, the samples go on to the end of the file. The chunk auxi of receivers is read as far as it is plausible (layout from memory).
/// </remarks>
public static class WaveHeader
{
    /// <summary>So many bytes from the start of a file are enough for any head that is taken.</summary>
    public const int HeadBytes = 1 << 18;

    private const int ChunkHead = 8;
    private const uint Unknown32 = 0xFFFFFFFF;

    /// <summary>Whether a file begins like one of these.</summary>
    public static bool Matches(ReadOnlySpan<byte> head) =>
        head.Length >= 12 && Is(head[8..], "WAVE") && (Is(head, "RIFF") || Is(head, "RF64") || Is(head, "BW64"));

    /// <summary>Reads the head.</summary>
    /// <param name="head">The first bytes of the file: all of them, or <see cref="HeadBytes"/>.</param>
    /// <param name="fileBytes">Length of the file now.</param>
    /// <param name="chunkAt">Brings up to eight bytes of the file from a place behind the head; tells a chunk there from samples.</param>
    /// <param name="source">Name of the file, for the error.</param>
    public static Parsed<SampleLayout> Read(ReadOnlySpan<byte> head, long fileBytes, Func<long, byte[]> chunkAt, string source)
    {
        if (!Matches(head))
        {
            return new ParseError(source, 0, 0, "it does not begin with RIFF, RF64 or BW64 and WAVE; it is not a WAV file");
        }

        WaveChunks found = default;
        long at = 12;
        while (at + ChunkHead <= head.Length)
        {
            ReadOnlySpan<byte> chunk = head[(int)at..];
            uint size = BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]);
            ReadOnlySpan<byte> body = chunk[ChunkHead..];
            if (Is(chunk, "data"))
            {
                return found.Layout is null
                    ? Refuse(source, at, "the samples come before their description (fmt)")
                    : found.Layout with { Offset = at + ChunkHead, Bytes = DataBytes(at + ChunkHead, size, found.LongData, fileBytes, chunkAt), CentreHz = found.CentreHz, Start = found.Start };
            }

            if (Is(chunk, "fmt ") && Format(body, size, source, at).Try(out SampleLayout? layout, out ParseError? error) is var good)
            {
                if (!good)
                {
                    return error ?? Refuse(source, at, "the description cannot be read");
                }

                found.Layout = layout;
            }
            else if (Is(chunk, "ds64") && size >= 24 && body.Length >= 24)
            {
                found.LongData = BinaryPrimitives.ReadUInt64LittleEndian(body[8..]);
            }
            else if (Is(chunk, "auxi") && size >= 36 && body.Length >= 36)
            {
                Auxiliary(body, ref found);
            }

            at += ChunkHead + size + (size & 1);
        }

        return new ParseError(source, 0, 0, fileBytes < HeadBytes
            ? "the head of this WAV file ends before its samples; the recording has perhaps only just begun: try again"
            : string.Create(CultureInfo.InvariantCulture, $"no samples (chunk data) within the first {HeadBytes} bytes of this WAV file; record it again"));
    }

    // The size told is right only where another chunk stands behind it; everywhere else the samples go on to the end of the file.
    private static long? DataBytes(long start, uint size32, ulong? size64, long fileBytes, Func<long, byte[]> chunkAt)
    {
        long told = size32 != Unknown32 ? size32 : size64 is { } size and <= long.MaxValue / 2 ? (long)size : 0;
        long behind = start + told + (told & 1);
        return told > 0 && behind + ChunkHead <= fileBytes && IsChunk(chunkAt(behind), fileBytes - behind) ? told : null;
    }

    private static bool IsChunk(ReadOnlySpan<byte> at, long rest)
    {
        if (at.Length < ChunkHead || ChunkHead + (long)BinaryPrimitives.ReadUInt32LittleEndian(at[4..]) > rest + 1)
        {
            return false;
        }

        foreach (byte letter in at[..4])
        {
            if (letter is < 0x20 or > 0x7E)
            {
                return false;
            }
        }

        return true;
    }

    private static Parsed<SampleLayout> Format(ReadOnlySpan<byte> body, uint size, string source, long at)
    {
        const ushort Pcm = 1, Float = 3, Extensible = 0xFFFE;
        if (size < 16 || body.Length < 16)
        {
            return Refuse(source, at, "the description (fmt) is shorter than 16 bytes");
        }

        ushort code = BinaryPrimitives.ReadUInt16LittleEndian(body);
        ushort channels = BinaryPrimitives.ReadUInt16LittleEndian(body[2..]);
        uint rate = BinaryPrimitives.ReadUInt32LittleEndian(body[4..]);
        ushort align = BinaryPrimitives.ReadUInt16LittleEndian(body[12..]);
        ushort bits = BinaryPrimitives.ReadUInt16LittleEndian(body[14..]);
        if (code == Extensible && size >= 26 && body.Length >= 26)
        {
            code = BinaryPrimitives.ReadUInt16LittleEndian(body[24..]);
        }

        if (channels != 2)
        {
            return Refuse(source, at, $"it has {channels} channel(s); samples of a receiver need two, I and Q");
        }

        SampleFormat? format = (code, bits) switch
        {
            (Pcm, 8) => SampleFormat.Cu8,
            (Pcm, 16) => SampleFormat.Ci16Le,
            (Pcm, 24) => SampleFormat.Ci24Le,
            (Pcm, 32) => SampleFormat.Ci32Le,
            (Float, 32) => SampleFormat.Cf32Le,
            _ => null,
        };
        return format is not { } known ? Refuse(source, at, $"its samples have code {code} and {bits} bits; 8, 16, 24 or 32 bit PCM and 32 bit float can be read")
            : align != channels * bits / 8 ? Refuse(source, at, string.Create(CultureInfo.InvariantCulture, $"a sample takes {align} bytes, but 2 x {bits} bits are {channels * bits / 8}"))
            : rate is < (uint)SampleLayout.LeastRate or > (uint)SampleLayout.MostRate ? Refuse(source, at, $"its rate is {rate} samples a second; 100000 to 40000000 can be used")
            : new SampleLayout(known, rate);
    }

    private static void Auxiliary(ReadOnlySpan<byte> body, ref WaveChunks found)
    {
        Span<int> fields = stackalloc int[8];
        for (int k = 0; k < fields.Length; k++)
        {
            fields[k] = BinaryPrimitives.ReadUInt16LittleEndian(body[(2 * k)..]);
        }

        bool plausible = fields[0] is >= 2000 and <= 2100 && fields[1] is >= 1 and <= 12 && fields[3] >= 1 && fields[3] <= DateTime.DaysInMonth(fields[0], fields[1])
            && fields[4] <= 23 && fields[5] <= 59 && fields[6] <= 59 && fields[7] <= 999;
        if (plausible)
        {
            found.Start = new DateTimeOffset(fields[0], fields[1], fields[3], fields[4], fields[5], fields[6], fields[7], TimeSpan.Zero);
        }

        uint centre = BinaryPrimitives.ReadUInt32LittleEndian(body[32..]);
        found.CentreHz = plausible && centre is >= 1_000_000 and <= 4_200_000_000 ? centre : null;
    }

    private static ParseError Refuse(string source, long at, string what) =>
        new(source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"WAV file, byte {at}: {what}"));

    private static bool Is(ReadOnlySpan<byte> at, string name) =>
        at.Length >= 4 && string.Equals(Encoding.Latin1.GetString(at[..4]), name, StringComparison.Ordinal);

    private struct WaveChunks
    {
        public SampleLayout? Layout;
        public ulong? LongData;
        public double? CentreHz;
        public DateTimeOffset? Start;
    }
}
