using System.Globalization;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Files;

namespace Cockpit.Devices.Recordings;

/// <summary>Keeps the samples of a sender as a SigMF recording, with gaps and lock noted in it; ends by itself before the disk is full.</summary>
/// <remarks>Whatever fails here ends the recording and nothing else. Not for several threads at once.</remarks>
public sealed class SampleRecorder : IDisposable
{
    /// <summary>So much of a disk stays free: the session must be kept whatever the samples need.</summary>
    public const long LeastFree = 512L << 20;

    private const int MostNotes = 4096;
    private static readonly TimeSpan LookPeriod = TimeSpan.FromSeconds(1);

    private readonly string _meta;
    private readonly SampleLayout _layout;
    private readonly TimeProvider _time;
    private readonly List<SigmfCapture> _captures = [];
    private readonly List<SigmfAnnotation> _annotations = [];
    private readonly long _leastFree;
    private SampleFile? _file;
    private long _samples;
    private long? _lockedFrom;
    private long _looked;

    /// <summary>Begins a recording; the folder is made where it is missing.</summary>
    /// <param name="folder">Where to.</param>
    /// <param name="name">Name of the recording, without ending.</param>
    /// <param name="layout">What the samples are.</param>
    /// <param name="time">The clock that the recording is dated by.</param>
    /// <param name="leastFree">So many bytes of the disk stay free.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public SampleRecorder(string folder, string name, SampleLayout layout, TimeProvider time, long leastFree = LeastFree)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(time);
        Directory.CreateDirectory(folder);
        _meta = Path.Combine(folder, name + SigmfMeta.MetaEnding);
        _layout = layout with { Offset = 0, Bytes = null, Start = time.GetUtcNow() };
        _time = time;
        _leastFree = leastFree;
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
                if (DiskSpace.FreeBeside(_meta) is { } free && free < _leastFree)
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
        if (_captures.Count + _annotations.Count >= MostNotes)
        {
            return;
        }

        if (missing != 0 && _samples > 0)
        {
            _captures.Add(new SigmfCapture(_samples, _time.GetUtcNow()));
            _annotations.Add(new SigmfAnnotation(_samples, 0, missing > 0 ? string.Create(CultureInfo.InvariantCulture, $"gap of {missing} samples") : "gap"));
        }

        if (locked && _lockedFrom is null)
        {
            _lockedFrom = _samples;
        }
        else if (!locked && _lockedFrom is { } from)
        {
            _annotations.Add(new SigmfAnnotation(from, _samples - from, "lock"));
            _lockedFrom = null;
        }
    }

    private void End(string? trouble)
    {
        if (_file is not { } file)
        {
            return;
        }

        _file = null;
        Trouble = trouble;
        try
        {
            Note(0, locked: false);
            file.Finish();
            file.Dispose();
            File.WriteAllBytes(_meta + ".part", SigmfDescription.Of(_layout, _captures, [.. _annotations.OrderBy(note => note.SampleStart)]));
            File.Move(_meta + ".part", _meta, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Trouble ??= $"the recording is not whole: {FileWords.Of(e)}";
        }
    }
}
