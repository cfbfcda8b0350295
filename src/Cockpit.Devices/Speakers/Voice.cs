using System.Collections.Concurrent;
using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>Takes what should sound from the thread of the state to the thread of the sound device; neither waits for the other.</summary>
/// <remarks>
/// <see cref="Accept"/> belongs on every snapshot, not on a thinned-out stream: a cue starts in one snapshot only. Started
/// cues go through a queue, of tone and volume the latest value counts. A cue that no device took within half a second is
/// stale and dropped; the peak tone ends when no snapshot came for a second.
/// </remarks>
/// <param name="time">The clock that ages are judged by.</param>
/// <param name="speech">Spoken words; null where tones are wanted.</param>
public sealed class Voice(TimeProvider time, SpeechClips? speech = null) : ISoundSource
{
    private const int MostWaiting = 64;
    private static readonly TimeSpan StaleAfter = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan AbandonedAfter = TimeSpan.FromSeconds(1);
    private readonly ConcurrentQueue<(long At, Cue Cue)> _started = new();
    private readonly Mixer _mixer = new();
    private CuePlan _latest = CuePlan.Silence;
    private long _latestAt;
    private long _firstRender;

    /// <summary>Called on the thread of the state for each cue that starts.</summary>
    public Action<Cue>? Starting { get; set; }

    /// <summary>Time since the first block was rendered; null before it. Sample s of the stream belongs to s / 48000 s of it.</summary>
    public TimeSpan? StreamTime => Interlocked.Read(ref _firstRender) is var first && first != 0 ? time.GetElapsedTime(first) : null;

    /// <summary>Takes what should sound from now on. Returns at once.</summary>
    public void Accept(CuePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        long now = time.GetTimestamp();
        Interlocked.Exchange(ref _latestAt, now);
        Volatile.Write(ref _latest, plan);
        foreach (Cue cue in plan.Started)
        {
            // Nobody takes them when no device is open; the oldest are stale then.
            if (_started.Count >= MostWaiting) { _started.TryDequeue(out _); }

            _started.Enqueue((now, cue));
            Starting?.Invoke(cue);
        }
    }

    /// <inheritdoc/>
    public void Render(Span<float> interleaved)
    {
        if (_firstRender == 0) { Interlocked.Exchange(ref _firstRender, time.GetTimestamp()); }

        CuePlan plan = Volatile.Read(ref _latest);
        bool abandoned = time.GetElapsedTime(Interlocked.Read(ref _latestAt)) > AbandonedAfter;
        _mixer.SetPeak(abandoned ? null : plan.Peak?.FrequencyHz, plan.Peak?.PulsesPerSecond ?? 0.0);
        _mixer.SetVolume(plan.VolumeDb);
        while (_started.TryDequeue(out (long At, Cue Cue) next))
        {
            if (time.GetElapsedTime(next.At) <= StaleAfter) { speech.Start(_mixer, next.Cue); }
        }

        _mixer.Render(interleaved);
    }
}
