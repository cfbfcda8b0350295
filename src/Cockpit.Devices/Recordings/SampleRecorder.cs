using System.Globalization;
using Cockpit.Session.Events;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Files;

namespace Cockpit.Devices.Recordings;

/// <summary>Keeps the samples of a sender as a SigMF recording, with pass, lock, gaps and the operator's marks noted in it; ends by itself before the disk is full.</summary>
/// <remarks>Whatever fails here ends the recording and nothing else. Not for several threads at once.</remarks>
public sealed class SampleRecorder : IDisposable
{
    /// <summary>So much of a disk stays free: the session must be kept whatever the samples need.</summary>
    public const long LeastFree = DiskMeasured.LeastFree;

    private const int MostNotes = 4096;
    private static readonly TimeSpan LookPeriod = TimeSpan.FromSeconds(1);

    private readonly string _meta;
    private readonly SampleLayout _layout;
    private readonly TimeProvider _time;
    private readonly RecordingMarks _marks;
    private readonly Func<string, long?> _freeBeside;
    private readonly List<SigmfCapture> _captures = [];
    private readonly List<SigmfAnnotation> _annotations = [];
    private readonly long _leastFree;
    private SampleFile? _file;
    private long _samples;
    private long _looked;
    private (long From, string Comment)? _lock;
    private (long From, string Comment)? _pass;

    /// <summary>Begins a recording; the folder is made where it is missing.</summary>
    /// <param name="folder">Where to.</param>
    /// <param name="name">Name of the recording, without ending.</param>
    /// <param name="layout">What the samples are.</param>
    /// <param name="time">The clock that the recording is dated by.</param>
    /// <param name="marks">What else is to be noted in it; null where nothing is.</param>
    /// <param name="leastFree">So many bytes of the disk stay free.</param>
    /// <param name="freeBeside">Asks for the free bytes beside a file; null for the disk itself.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public SampleRecorder(string folder, string name, SampleLayout layout, TimeProvider time, RecordingMarks? marks = null, long leastFree = LeastFree, Func<string, long?>? freeBeside = null)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(time);
        Directory.CreateDirectory(folder);
        _meta = Path.Combine(folder, name + SigmfMeta.MetaEnding);
        _layout = layout with { Offset = 0, Bytes = null, Start = time.GetUtcNow() };
        _time = time;
        _marks = marks ?? new RecordingMarks();
        _leastFree = leastFree;
        _freeBeside = freeBeside ?? DiskSpace.FreeBeside;
        _looked = time.GetTimestamp();
        _captures.Add(new SigmfCapture(0, _layout.Start));
        _file = SampleFile.Create(_meta, _layout);
    }

    /// <summary>Why it ended before its time, one sentence; null while all is well.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Bytes that a recording needs.</summary>
    public static long BytesFor(SampleLayout layout, TimeSpan length)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return (long)(layout.BytesPerSecond * length.TotalSeconds);
    }

    /// <summary>Keeps whole samples.</summary>
    /// <param name="bytes">The samples.</param>
    /// <param name="missing">Samples that are missing before them; -1 = nobody knows how many.</param>
    /// <param name="locked">Whether frames are locked now.</param>
    public void Write(ReadOnlySpan<byte> bytes, long missing, bool locked)
    {
        if (_file is not { } file)
        {
            return;
        }

        try
        {
            Note(missing, locked);
            file.Write(bytes);
            _samples += bytes.Length / _layout.Format.BytesPerSample();
            if (_time.GetElapsedTime(_looked) >= LookPeriod)
            {
                _looked = _time.GetTimestamp();
                file.Flush();
                if (_freeBeside(_meta) is { } free && free < _leastFree)
                {
                    End(string.Create(CultureInfo.InvariantCulture, $"the recording ended, {free >> 20} MB of its disk are left; guidance goes on"));
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            End($"the recording ended: {FileWords.Of(e)}; guidance goes on");
        }
    }

    /// <summary>Ends it; what was noted stands in its description.</summary>
    public void Dispose() => End(null);

    private void Note(long missing, bool locked)
    {
        if (missing != 0 && _samples > 0 && HasRoom)
        {
            _captures.Add(new SigmfCapture(_samples, _time.GetUtcNow()));
            _annotations.Add(new SigmfAnnotation(_samples, 0, "gap", missing > 0 ? string.Create(CultureInfo.InvariantCulture, $"{missing} samples are missing here") : "nobody knows how many samples are missing here"));
        }

        Span(ref _lock, locked ? "frames are locked" : null, "lock");
        Span(ref _pass, _marks.Pass, "pass");
        while (_marks.TryTake(out (string Label, string Comment) mark))
        {
            if (HasRoom)
            {
                _annotations.Add(new SigmfAnnotation(_samples, 0, mark.Label, mark.Comment));
            }
        }
    }

    private bool HasRoom => _captures.Count + _annotations.Count < MostNotes;

    /// <summary>Something that lasts: begun when it begins, noted when it ends.</summary>
    private void Span(ref (long From, string Comment)? open, string? comment, string label)
    {
        if (open is { } was && !string.Equals(was.Comment, comment, StringComparison.Ordinal))
        {
            open = null;
            if (_samples > was.From && HasRoom)
            {
                _annotations.Add(new SigmfAnnotation(was.From, _samples - was.From, label, was.Comment));
            }
        }

        open ??= comment is null ? null : (_samples, comment);
    }

    private void End(string? trouble)
    {
        if (_file is not { } file)
        {
            return;
        }

        _file = null;
        Trouble = trouble;
        Span(ref _lock, null, "lock");
        Span(ref _pass, null, "pass");
        Try(() => Finish(file));

        // A disk that has no room for the last samples may have it for their description.
        Try(Describe);
    }

    private static void Finish(SampleFile file)
    {
        using (file)
        {
            file.Finish();
        }
    }

    private void Describe()
    {
        File.WriteAllBytes(_meta + ".part", SigmfDescription.Of(_layout, _captures, [.. _annotations.OrderBy(note => note.SampleStart)]));
        File.Move(_meta + ".part", _meta, overwrite: true);
    }

    private void Try(Action step)
    {
        try
        {
            step();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Trouble ??= $"the recording is not whole: {FileWords.Of(e)}";
        }
    }
}
