using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>Samples of a recording; where it is followed, also those that are still being written.</summary>
/// <remarks>Looks at the length every 50 ms: notifications of change come late or never on network file systems.</remarks>
public sealed class FileSampleSource : ISampleSource
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    private readonly SampleOptions _options;
    private readonly bool _follow;
    private readonly TimeProvider _time;
    private readonly Action<string> _say;
    private readonly string _path;
    private RecordingFile _file;
    private long _lastGrowth;
    private bool _told;

    private FileSampleSource(RecordingFile file, string path, SampleOptions options, bool follow, TimeProvider time, Action<string> say)
    {
        _file = file;
        _path = path;
        _options = options;
        _follow = follow;
        _time = time;
        _say = say;
        _lastGrowth = time.GetTimestamp();
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
    /// <param name="say">Told in a sentence when the recording stops growing or begins anew.</param>
    /// <param name="source">What the path belongs to, for the error.</param>
    public static Parsed<FileSampleSource> Open(string path, SampleOptions options, bool follow, TimeProvider time, Action<string> say, string source)
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

        return new FileSampleSource(file, path, options, follow, time, say);
    }

    /// <inheritdoc/>
    public async ValueTask<SamplesRead> ReadAsync(Memory<byte> buffer, CancellationToken stop)
    {
        long missing = 0;
        while (true)
        {
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

    private void Grown(int count)
    {
        if (count == 0)
        {
            return;
        }

        if (_told)
        {
            _say($"{_path} grows again");
            _told = false;
        }

        _lastGrowth = _time.GetTimestamp();
    }

    private void Stalled()
    {
        if (!_told && _time.GetElapsedTime(_lastGrowth) > Patience)
        {
            _told = true;
            _say(string.Create(CultureInfo.InvariantCulture, $"{_path} has not grown for {Patience.TotalSeconds:0} s: is the recording still running?"));
        }
    }

    // A file under the same name that is shorter than what was read is another one.
    private bool BegunAnew()
    {
        FileInfo now = new(_file.Path);
        if (!now.Exists || now.Length >= _file.Layout.Offset + _file.BytesRead
            || !RecordingFile.Open(_path, _options with { FromEnd = false }, _path).Try(out RecordingFile? next, out _))
        {
            return false;
        }

        _say($"{_path} has begun anew");
        _file.Dispose();
        _file = next;
        return true;
    }
}
