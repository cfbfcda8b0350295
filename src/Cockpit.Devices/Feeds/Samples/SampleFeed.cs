using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds.Samples;

/// <summary>The signal itself: samples of a receiver, or of the recording that it is writing, measured here.</summary>
/// <param name="address">Where the samples come from.</param>
/// <param name="name">Name of the feed.</param>
/// <param name="downlink">The carrier as sent, to tell Doppler where the samples tell their centre.</param>
/// <param name="wish">Where the samples are kept; null where they are not.</param>
/// <remarks>
/// A recording that is there when the feed opens is read from its present end, one that begins later from its start. A file that is not there yet, a
/// sender that is gone, a recording that is begun anew: all are waited for, and told.
/// </remarks>
public sealed class SampleFeed(SampleAddress address, string name, Frequency downlink, RecordingWish? wish = null) : IFeed, ISourceWatcher
{
    private const int BufferBytes = 1 << 18;
    private const string Short = "the computer is short of time: frames count by their markers, undecoded";
    private static readonly TimeSpan TryAgain = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(2);

    private readonly CancellationTokenSource _stop = new();
    private readonly Lock _gate = new();
    private readonly Queue<Action<FeedPublisher>> _untold = new();
    private FeedPublisher? _publisher;
    private ISampleSource? _source;
    private Task _run = Task.CompletedTask;
    private string? _trouble;
    private string? _remark;
    private string? _notKept;
    private int _recordings;
    private bool _fromEnd;
    private readonly QuickLook _picture = new(SampleReadings.Channel);

    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public void Open()
    {
        _fromEnd = !address.IsFile || address.FileExists;
        if (!_fromEnd)
        {
            return;
        }

        _source = address.Open(_fromEnd, TimeProvider.System, this).Try(out ISampleSource? source, out ParseError? error)
            ? source
            : throw new PortException(error.Message);
    }

    /// <inheritdoc/>
    public void Start(IEventSink sink, TimeProvider time)
    {
        FeedPublisher publisher = new(name, sink, time);
        lock (_gate)
        {
            while (_untold.TryDequeue(out Action<FeedPublisher>? say))
            {
                say(publisher);
            }

            _publisher = publisher;
        }

        _run = Task.Run(() => RunAsync(publisher, time, _stop.Token));
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await Task.WhenAny(_run, Task.Delay(ClosingPatience, TimeProvider.System, CancellationToken.None));
        if (_source is { } source)
        {
            await source.DisposeAsync();
        }

        _publisher?.Dispose();
        _stop.Dispose();
    }

    /// <summary>Where to say what is to be noted in the recording; null where the samples are not kept.</summary>
    public RecordingMarks? Marks => wish?.Marks;

    /// <summary>Samples that were measured, and those known to have been left out; read it when the feed has ended.</summary>
    public (long Measured, long LeftOut) Samples { get; private set; }

    /// <summary>The whole picture so far; read it when the feed has ended. Null where no line of one came.</summary>
    public QuickLook? Picture => _picture is { Lines: > 0 } ? _picture : null;

    /// <inheritdoc/>
    void ISourceWatcher.Comes(string where) => Tell(publisher => publisher.Connected(where));

    /// <inheritdoc/>
    void ISourceWatcher.Gone(string reason) => Tell(publisher => publisher.Lost(reason));

    /// <inheritdoc/>
    void ISourceWatcher.Grows(in GrowthReport report)
    {
        RecordingWatched watched = new(name, report.Bytes, report.BytesPerSecond, report.StoodStill, report.FreeBytes);
        Tell(publisher => publisher.Say(watched));
    }

    /// <summary>A source that opens before the session has nobody to tell yet; what it says then is told at the start.</summary>
    private void Tell(Action<FeedPublisher> say)
    {
        lock (_gate)
        {
            if (_publisher is null)
            {
                _untold.Enqueue(say);
                return;
            }
        }

        say(_publisher);
    }

    private async Task RunAsync(FeedPublisher publisher, TimeProvider time, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                if (_source is null && !TryOpen(publisher, time))
                {
                    await Task.Delay(TryAgain, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                    continue;
                }

                await MeasureAsync(publisher, _source!, time, stop);
                publisher.Lost($"{address.Text} has come to its end");
                await Task.Delay(Timeout.InfiniteTimeSpan, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // A feed's loop: whatever fails in it is told and tried again, the pass goes on.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                await FailedAsync(publisher, failure);
                await Task.Delay(TryAgain, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private bool TryOpen(FeedPublisher publisher, TimeProvider time)
    {
        if (address.Open(_fromEnd, time, this).Try(out _source, out ParseError? error))
        {
            _trouble = null;
            return true;
        }

        Trouble(publisher, address is { IsFile: true, FileExists: false } ? $"{address.Text} is not there yet; it is waited for" : error.Message);
        return false;
    }

    private async Task FailedAsync(FeedPublisher publisher, Exception failure)
    {
        Trouble(publisher, $"{address.Text} failed ({failure.Message.TrimEnd('.')}); it is tried again");
        if (_source is { } source)
        {
            _source = null;
            await source.DisposeAsync();
        }
    }

    private void Trouble(FeedPublisher publisher, string trouble)
    {
        if (!string.Equals(_trouble, trouble, StringComparison.Ordinal))
        {
            _trouble = trouble;
            publisher.Lost(trouble);
        }
    }

    private async Task MeasureAsync(FeedPublisher publisher, ISampleSource source, TimeProvider time, CancellationToken stop)
    {
        Core.Formats.Recordings.SampleLayout layout = source.Layout;
        ImmutableArray<IFrameLock> locks = FrameLocks.For(layout.SampleRate);
        SignalMeter meter = new(layout.SampleRate, layout.Format, locks, layout.Exchanged);
        DecodingLoad load = new(locks, layout.SampleRate);
        SampleReadings readings = new(publisher, name, layout.SampleRate, layout.CentreHz - downlink.Hertz, _picture);
        RateWatch rate = new(layout.SampleRate, time);
        DropWatch drops = new(time);
        using SampleRecorder? recorder = Recorder(publisher, layout, time);
        byte[] buffer = new byte[BufferBytes];
        int sampleBytes = layout.Format.BytesPerSample();
        while (await source.ReadAsync(buffer, stop) is { Bytes: > 0 } read)
        {
            if (read.Missing != 0)
            {
                meter.Skip(Math.Max(read.Missing, 0));
                readings.Restart();
            }

            if (read.Missing < 0)
            {
                rate.Restart();
            }

            drops.Came(read.Missing);
            Samples = (Samples.Measured + (read.Bytes / sampleBytes), Samples.LeftOut + Math.Max(read.Missing, 0));

            long began = time.GetTimestamp();
            meter.Take(buffer.AsSpan(0, read.Bytes), readings);
            load.Worked(time.GetElapsedTime(began), read.Bytes / sampleBytes);
            recorder?.Write(buffer.AsSpan(0, read.Bytes), read.Missing, readings.Locked);
            rate.Came((read.Bytes / sampleBytes) + Math.Max(read.Missing, 0));
            Remark(publisher, recorder?.Trouble ?? _notKept ?? rate.Remark ?? drops.Remark ?? readings.Remark ?? (load.IsShort ? Short : null));
        }
    }

    private SampleRecorder? Recorder(FeedPublisher publisher, Core.Formats.Recordings.SampleLayout layout, TimeProvider time)
    {
        if (wish is null)
        {
            return null;
        }

        try
        {
            string which = _recordings++ == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"-{_recordings}");
            return new SampleRecorder(wish.Folder, wish.Name + which, layout, time, wish.Marks);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _notKept = $"the samples are not kept: {FileWords.Of(e)}";
            Remark(publisher, _notKept);
            return null;
        }
    }

    private void Remark(FeedPublisher publisher, string? remark)
    {
        if (!string.Equals(_remark, remark, StringComparison.Ordinal))
        {
            _remark = remark;
            publisher.Say(new FeedRemarked(name, remark));
        }
    }
}

/// <summary>Where the samples of a sender are to be kept.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="Name">Name of the recording, without ending.</param>
public sealed record RecordingWish(string Folder, string Name)
{
    /// <summary>What the session wants to be noted in it.</summary>
    public RecordingMarks Marks { get; } = new();
}
