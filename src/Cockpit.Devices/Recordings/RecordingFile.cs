using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Files;
using Microsoft.Win32.SafeHandles;

namespace Cockpit.Devices.Recordings;

/// <summary>A recording on the disk, finished or still being written: WAV, RF64, SigMF, or bare samples.</summary>
/// <remarks>What the file tells of itself need not be said; what is said wins.</remarks>
public sealed class RecordingFile : IDisposable
{
    private readonly SafeFileHandle _file;
    private long _position;

    private RecordingFile(SafeFileHandle file, string path, SampleLayout layout)
    {
        _file = file;
        Path = path;
        Layout = layout;
        _position = layout.Offset;
    }

    /// <summary>Path of the file with the samples.</summary>
    public string Path { get; }

    /// <summary>Where the samples stand and what they mean.</summary>
    public SampleLayout Layout { get; }

    /// <summary>Bytes of samples that are there now.</summary>
    public long BytesNow => Math.Max(Math.Min(RandomAccess.GetLength(_file) - Layout.Offset, Layout.Bytes ?? long.MaxValue), 0);

    /// <summary>Bytes of samples that were read.</summary>
    public long BytesRead => _position - Layout.Offset;

    /// <summary>Whether another file lies under its name now, or it became shorter than what was read of it; false while there is none.</summary>
    public bool IsReplaced
    {
        get
        {
            try
            {
                return FileStatus.Of(Path, follow: true) is { } now
                    && (now.Identity is { } there && FileStatus.Of(_file).Identity is { } here ? there != here || now.Length < _position : now.Length < _position);
            }
            catch (IOException)
            {
                return false;
            }
        }
    }

    /// <summary>Opens a recording.</summary>
    /// <param name="path">The file; of a SigMF recording either of its two.</param>
    /// <param name="options">What the address says of the samples.</param>
    /// <param name="source">What the path belongs to, for the error.</param>
    public static Parsed<RecordingFile> Open(string path, SampleOptions options, string source)
    {
        try
        {
            return IsSigmf(path) && options.Format is null ? OpenSigmf(path, options) : OpenOther(path, options, source);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new ParseError(path, 0, 0, e is FileNotFoundException or DirectoryNotFoundException
                ? "there is no such file; give the path of a recording"
                : $"the file cannot be read: {FileWords.Of(e)}; check its rights");
        }
    }

    /// <summary>Reads on; never a part of a sample more than the file has.</summary>
    /// <param name="buffer">Written.</param>
    /// <returns>Bytes that were read; 0 where there are no more now.</returns>
    /// <exception cref="IOException">The disk fails.</exception>
    public int Read(Span<byte> buffer)
    {
        long rest = BytesNow - BytesRead;
        rest -= rest % Layout.Format.BytesPerSample();
        int wanted = (int)Math.Min(Math.Max(rest, 0), buffer.Length - (buffer.Length % Layout.Format.BytesPerSample()));
        int done = 0;
        while (done < wanted && RandomAccess.Read(_file, buffer[done..wanted], _position) is > 0 and int count)
        {
            done += count;
            _position += count;
        }

        return done;
    }

    /// <summary>Goes to a place before the present end.</summary>
    /// <param name="bytesBeforeEnd">So many bytes before it; whole samples.</param>
    public void SeekToEnd(long bytesBeforeEnd)
    {
        long at = Math.Max(BytesNow - bytesBeforeEnd, 0);
        _position = Layout.Offset + at - (at % Layout.Format.BytesPerSample());
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private static bool IsSigmf(string path) =>
        path.EndsWith(SigmfMeta.MetaEnding, StringComparison.OrdinalIgnoreCase) || path.EndsWith(SigmfMeta.DataEnding, StringComparison.OrdinalIgnoreCase);

    private static Parsed<RecordingFile> OpenSigmf(string path, SampleOptions options)
    {
        string stem = path[..^SigmfMeta.MetaEnding.Length];
        string meta = stem + SigmfMeta.MetaEnding, data = stem + SigmfMeta.DataEnding;
        if (!File.Exists(meta))
        {
            return new ParseError(meta, 0, 0, "the description of this SigMF recording is missing; add ?format=...&rate=... to the address instead");
        }

        if (new FileInfo(meta).Length > SigmfMeta.MostBytes)
        {
            return new ParseError(meta, 0, 0, "the description is larger than 16 MiB; it is no SigMF description");
        }

        return SigmfMeta.Read(File.ReadAllBytes(meta), meta).Try(out SampleLayout? layout, out ParseError? error)
            ? new RecordingFile(Handle(data), data, Said(layout, options))
            : error;
    }

    private static Parsed<RecordingFile> OpenOther(string path, SampleOptions options, string source)
    {
        SafeFileHandle file = Handle(path);
        try
        {
            byte[] head = new byte[(int)Math.Min(RandomAccess.GetLength(file), WaveHeader.HeadBytes)];
            int length = RandomAccess.Read(file, head, 0);
            Parsed<SampleLayout> read = options.Format is null && WaveHeader.Matches(head)
                ? WaveHeader.Read(head.AsSpan(0, length), RandomAccess.GetLength(file), at => Peek(file, at), path)
                : Bare(path, options, source);
            if (read.Try(out SampleLayout? layout, out ParseError? error))
            {
                RecordingFile recording = new(file, path, Said(layout, options));
                file = new SafeFileHandle();
                return recording;
            }

            return error;
        }
        finally
        {
            file.Dispose();
        }
    }

    private static Parsed<SampleLayout> Bare(string path, SampleOptions options, string source)
    {
        SampleFormat? format = options.Format ?? SampleFormatText.OfEnding(path);
        return format is not { } known
            ? new ParseError(source, 0, 0, $"{Quoted.Of(path)} does not tell what its samples are; add ?format=FORMAT&rate=RATE, the format one of {SampleFormatText.Names}")
            : options.SampleRate is not { } rate
                ? new ParseError(source, 0, 0, $"{Quoted.Of(path)} does not tell its sample rate; add ?rate=3000000 (samples a second)")
                : new SampleLayout(known, rate);
    }

    private static SampleLayout Said(SampleLayout layout, SampleOptions options) => layout with
    {
        SampleRate = options.SampleRate ?? layout.SampleRate,
        CentreHz = options.CentreHz ?? layout.CentreHz,
        Start = options.Start ?? layout.Start,
        Offset = layout.Offset + options.SkipBytes,
        Bytes = layout.Bytes - options.SkipBytes,
        Exchanged = options.Exchanged,
    };

    private static byte[] Peek(SafeFileHandle file, long at)
    {
        byte[] bytes = new byte[8];
        return bytes[..RandomAccess.Read(file, bytes, at)];
    }

    private static SafeFileHandle Handle(string path) => File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
}
