using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>Samples of a recording; where it is followed, also those that are still being written.</summary>
/// <remarks>Looks at the length every 50 ms: notifications of change come late or never on network file systems.</remarks>
public sealed class FileSampleSource : ISampleSource
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan LeastPatience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan MostPatience = TimeSpan.FromSeconds(3);

    // Recorders write in bursts of up to two seconds; what is older than this is no burst, and too old to steer by.
    private const double MostBehindSeconds = 3;
    private const double KeptSeconds = 0.5;

    private readonly SampleOptions _options;
    private readonly bool _follow;
    private readonly TimeProvider _time;
    private readonly ISourceWatcher _watcher;
    private readonly string _path;
    private RecordingFile _file;
    private GrowthWatch _watch;
    private TimeSpan _longestBurst;
    private bool _told = true;

    private FileSampleSource(RecordingFile file, string path, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher)
    {
        _file = file;
        _path = path;
        _options = options;
        _follow = follow;
        _time = time;
        _watcher = watcher;
        _watch = new GrowthWatch(file.Path, time);
    }

    /// <inheritdoc/>
    public SampleLayout Layout => _file.Layout;

    /// <inheritdoc/>
    public (long Done, long Whole)? Progress => _follow ? null : (_file.BytesRead, _file.BytesNow);

    /// <summary>Opens a recording.</summary>
    /// <param name="path">The file; of a SigMF recording either of its two.</param>
    /// <param name="options">What the address says of the samples.</param>
    /// <param name="follow">Whether to wait for more at its end.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="watcher">Told how the recording grows, stops, begins anew.</param>
    /// <param name="source">What the path belongs to, for the error.</param>
    public static Parsed<FileSampleSource> Open(string path, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher, string source)
    {
        if (!RecordingFile.Open(path, options, source).Try(out RecordingFile? file, out ParseError? error))
        {
            return error;
        }

        if (options.FromEnd)
        {
            // A little of what is there, so that something is seen at once.
            const double SecondsBefore = 0.5;
            file.SeekToEnd((long)(file.Layout.BytesPerSecond * SecondsBefore));
        }

        return new FileSampleSource(file, path, options, follow, time, watcher);
    }

    /// <inheritdoc/>
    public async ValueTask<SamplesRead> ReadAsync(Memory<byte> buffer, CancellationToken stop)
    {
        long missing = 0;
        while (true)
        {
            missing += Behind();
            int count = _file.Read(buffer.Span);
            if (count > 0 || !_follow)
            {
                Grown(count);
                return new SamplesRead(count, missing);
            }

            if (BegunAnew())
            {
                missing = -1;
                continue;
            }

            Stalled();
            await Task.Delay(Period, _time, stop);
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        _file.Dispose();
        return ValueTask.CompletedTask;
    }

    /// <summary>Of what piled up while it could not be read only the newest is worth reading; the rest is counted.</summary>
    private long Behind()
    {
        if (!_follow || !_options.Newest || _file.BytesNow - _file.BytesRead < _file.Layout.BytesPerSecond * MostBehindSeconds)
        {
            return 0;
        }

        long before = _file.BytesRead;
        _file.SeekToEnd((long)(_file.Layout.BytesPerSecond * KeptSeconds));
        return (_file.BytesRead - before) / _file.Layout.Format.BytesPerSample();
    }

    private void Grown(int count)
    {
        if (!_follow || count == 0)
        {
            return;
        }

        // A pause that ended was a burst of this recorder: the next of its length is no stop.
        TimeSpan pause = _watch.StoodStill;
        Report();
        if (_told)
        {
            _told = false;
            _watcher.Comes(_file.Path);
        }
        else if (pause > _longestBurst)
        {
            _longestBurst = pause;
        }
    }

    private void Stalled()
    {
        Report();
        TimeSpan patience = LeastPatience + _longestBurst < MostPatience ? LeastPatience + _longestBurst : MostPatience;
        if (!_told && _watch.StoodStill > patience)
        {
            _told = true;
            _watcher.Gone($"{_path} does not grow any more: is the recording still running?");
        }
        else if (!_told && !File.Exists(_file.Path))
        {
            _told = true;
            _watcher.Gone($"{_path} is not there any more; a new recording of that name is waited for");
        }
    }

    private void Report()
    {
        if (_watch.Look(_file.Layout.Offset + _file.BytesNow) is { } report)
        {
            _watcher.Grows(report);
        }
    }

    // Another file under the same name, or one that is shorter than what was read.
    private bool BegunAnew()
    {
        if (!_file.IsReplaced
            || !RecordingFile.Open(_path, _options with { FromEnd = false }, _path).Try(out RecordingFile? next, out _))
        {
            return false;
        }

        if (next.Layout with { Offset = 0, Bytes = null, Start = null } != _file.Layout with { Offset = 0, Bytes = null, Start = null })
        {
            next.Dispose();
            throw new IOException("it was begun anew with another format, rate or centre");
        }

        _file.Dispose();
        _file = next;
        _told = false;
        _watch = new GrowthWatch(next.Path, _time);
        _watcher.Comes($"{_path}, begun anew");
        return true;
    }
}
