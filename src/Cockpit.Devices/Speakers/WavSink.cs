using Cockpit.Core.Formats;
using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>A WAV file, 16 bit, 48 kHz, stereo; its header is right to the last second even when the program dies.</summary>
/// <remarks>Format: RIFF/WAVE with a PCM "fmt " chunk (IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0, 1991).</remarks>
internal sealed class WavSink : IBlockSink
{
    private const int HeaderBytes = 44;
    private const int BytesPerFrame = SoundFormat.Channels * sizeof(short);
    private const long MostBytes = 2_000_000_000;   // below the 32 bits of the size fields; three hours
    private readonly FileStream _file;
    private long _bytes;
    private long _bytesInHeader;

    private WavSink(FileStream file) => _file = file;

    public string Name => $"file {Path.GetFileName(_file.Name)}";

    public int PeriodFrames => SoundFormat.Frames(5.0);

    public int BufferFrames => SoundFormat.Frames(20.0);

    /// <summary>Opens the file; what it held is replaced.</summary>
    /// <exception cref="SoundDeviceException">It cannot be written.</exception>
    public static WavSink Open(string path)
    {
        try
        {
            WavSink sink = new(new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.Read));
            sink.WriteHeader();
            return sink;
        }
        catch (Exception e) when (IsFileTrouble(e))
        {
            throw Trouble(path, e);
        }
    }

    public void Write(ReadOnlySpan<short> block)
    {
        try
        {
            if (!BitConverter.IsLittleEndian) { throw new SoundDeviceException("WAV files are written on little-endian machines only", mayReturn: false); }

            if (_bytes + (block.Length * sizeof(short)) > MostBytes) { throw new SoundDeviceException("the WAV file is full (2 GB)", mayReturn: false); }

            _file.Write(MemoryMarshal.AsBytes(block));
            _bytes += block.Length * sizeof(short);
            if (_bytes - _bytesInHeader >= SoundFormat.Rate * BytesPerFrame) { WriteHeader(); }
        }
        catch (Exception e) when (IsFileTrouble(e))
        {
            throw Trouble(_file.Name, e);
        }
    }

    public void Dispose()
    {
        try
        {
            WriteHeader();
            _file.Dispose();
        }
        catch (Exception e) when (IsFileTrouble(e))
        {
            throw Trouble(_file.Name, e);
        }
    }

    private static bool IsFileTrouble(Exception e) => e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException;

    private static SoundDeviceException Trouble(string path, Exception e) => new($"cannot write the sound to {path}: {FileWords.Of(e)}", mayReturn: false, e);

    private void WriteHeader()
    {
        Span<byte> header = stackalloc byte[HeaderBytes];
        "RIFF"u8.CopyTo(header);
        BinaryPrimitives.WriteInt32LittleEndian(header[4..], (int)(HeaderBytes - 8 + _bytes));
        "WAVEfmt "u8.CopyTo(header[8..]);
        BinaryPrimitives.WriteInt32LittleEndian(header[16..], 16);
        BinaryPrimitives.WriteInt16LittleEndian(header[20..], 1);
        BinaryPrimitives.WriteInt16LittleEndian(header[22..], SoundFormat.Channels);
        BinaryPrimitives.WriteInt32LittleEndian(header[24..], SoundFormat.Rate);
        BinaryPrimitives.WriteInt32LittleEndian(header[28..], SoundFormat.Rate * BytesPerFrame);
        BinaryPrimitives.WriteInt16LittleEndian(header[32..], BytesPerFrame);
        BinaryPrimitives.WriteInt16LittleEndian(header[34..], 16);
        "data"u8.CopyTo(header[36..]);
        BinaryPrimitives.WriteInt32LittleEndian(header[40..], (int)_bytes);
        _file.Flush();
        _file.Position = 0;
        _file.Write(header);
        _file.Flush();
        _file.Position = HeaderBytes + _bytes;
        _bytesInHeader = _bytes;
    }
}
