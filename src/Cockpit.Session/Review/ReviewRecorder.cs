using Cockpit.Core.Link;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>Gathers what a review needs while a session is folded, live or from its journal.</summary>
/// <remarks>Not safe for two threads. Memory: about 100 bytes for each half second. A <see cref="SessionOpened"/> starts afresh.</remarks>
public sealed class ReviewRecorder
{
    private const int LongestHoleBlocks = 4 * 3600;

    private readonly List<ReviewBlock> _blocks = [];
    private readonly List<ReviewCall> _calls = [];
    private readonly List<ReviewKey> _keys = [];
    private readonly List<FrameCount> _frames = [];
    private readonly List<SlipPoint> _offsets = [];
    private Snapshot? _last;
    private long? _bin;
    private Tally _tally;

    /// <summary>The review of a whole session.</summary>
    /// <param name="envelopes">Its events in their order.</param>
    /// <returns>Null when the session has no pass or does not touch it.</returns>
    public static SessionReview? Of(IEnumerable<Envelope> envelopes) => LogOf(envelopes) is { } log ? Reviewer.Make(log) : null;

    /// <summary>What a review needs of a whole session.</summary>
    /// <param name="envelopes">Its events in their order.</param>
    /// <returns>Null when the session was never opened.</returns>
    public static ReviewLog? LogOf(IEnumerable<Envelope> envelopes)
    {
        ArgumentNullException.ThrowIfNull(envelopes);
        var fold = new Fold();
        var recorder = new ReviewRecorder();
        foreach (Envelope envelope in envelopes)
        {
            recorder.Add(envelope.Event, fold.Step(envelope));
        }

        return recorder.Log();
    }

    /// <summary>Takes in one event.</summary>
    /// <param name="happened">The event.</param>
    /// <param name="snapshot">The moment after it.</param>
    public void Add(SessionEvent happened, Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (happened is SessionOpened)
        {
            Clear();
        }

        CloseBlocks(snapshot);
        switch (happened)
        {
            case SignalMeasured measured:
                Measure(measured.Sample, snapshot);
                break;
            case OperatorPressed pressed:
                _keys.Add(new ReviewKey(snapshot.Elapsed.TotalSeconds, snapshot.Answer?.Key ?? pressed.Key));
                break;
            default:
                break;
        }

        NoteCall(snapshot);
        _last = snapshot;
    }

    /// <summary>What was gathered so far; null before the session was opened.</summary>
    public ReviewLog? Log() => _last is { Settings: { } settings } last
        ? new ReviewLog(
            settings, last.Sky?.Pass, last.Aim.BeamWidth, last.Sky?.Holds ?? [], [.. _blocks], [.. _calls], [.. _keys], [.. _frames], [.. _offsets])
        {
            Clock = last.Desk.Clock,
        }
        : null;

    private void Clear()
    {
        _blocks.Clear();
        _calls.Clear();
        _keys.Clear();
        _frames.Clear();
        _offsets.Clear();
        _last = null;
        _bin = null;
        _tally = default;
    }

    private void CloseBlocks(Snapshot snapshot)
    {
        long bin = (long)Math.Floor(snapshot.Elapsed.TotalSeconds / ReviewBlock.Seconds);
        if (_bin is not { } open || _last is not { } last)
        {
            _bin = bin;
            return;
        }

        for (long closing = Math.Max(open, bin - LongestHoleBlocks); closing < bin; closing++)
        {
            double start = closing * ReviewBlock.Seconds;
            DateTimeOffset utc = snapshot.Utc - (snapshot.Elapsed - TimeSpan.FromSeconds(start));
            bool hole = closing > open + 1;
            _blocks.Add(_tally.Block(start, utc, hole ? null : last.Sky?.Now, last.Aim));
            _tally = default;
        }

        _bin = bin;
    }

    private void Measure(SignalSample sample, Snapshot snapshot)
    {
        _tally = _tally.With(sample);
        double at = snapshot.Elapsed.TotalSeconds;
        if (sample.Frames is { } frames)
        {
            _frames.Add(new FrameCount(at, frames));
        }

        if (sample.OffsetHz is { } offset && snapshot.Link is { Doppler: { } doppler, DopplerRateHzPerSec: { } rate } && snapshot.Sky?.Now?.Elevation > Angle.Zero)
        {
            _offsets.Add(new SlipPoint(at, offset, doppler.Hertz, rate));
        }
    }

    // A call is new when the word becomes "move", or when another move is called while it stands.
    private void NoteCall(Snapshot snapshot)
    {
        if (snapshot.Aim is { Word: AimWord.Move, Nudge: { } nudge }
            && !(_last?.Aim is { Word: AimWord.Move, NudgeAt: var before } && before == snapshot.Aim.NudgeAt))
        {
            _calls.Add(new ReviewCall(snapshot.Elapsed.TotalSeconds, snapshot.Utc, nudge, snapshot.Aim.Reason));
        }
    }

    private readonly record struct Tally(double LevelSum, int Levels, int Samples, int Locks, int Told, double? Clipped)
    {
        public Tally With(SignalSample sample) => new(
            LevelSum + (sample.SteeringDb ?? 0.0),
            Levels + (sample.SteeringDb is null ? 0 : 1),
            Samples + 1,
            Locks + (sample.Locked == true ? 1 : 0),
            Told + (sample.Locked is null ? 0 : 1),
            sample.Clipped is { } clipped ? Math.Max(Clipped ?? 0.0, clipped) : Clipped);

        public ReviewBlock Block(double start, DateTimeOffset utc, LookAngles? look, AimNow aim) => new(
            start,
            utc,
            look,
            Levels > 0 ? LevelSum / Levels : null,
            Samples,
            Told > 0 ? (double)Locks / Told : null,
            Clipped,
            aim.Word,
            aim.Dish);
    }
}
