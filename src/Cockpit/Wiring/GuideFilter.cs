using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>The guidance as a filter: timed records in, one JSON object for each out; the records are the session's clock.</summary>
/// <param name="settings">What the session is about.</param>
/// <param name="keep">Where each event goes beside the fold; null when the session is not kept.</param>
public sealed class GuideFilter(SessionSettings settings, Action<Envelope>? keep = null)
{
    private readonly Fold _fold = new();
    private DateTimeOffset? _opened;
    private DateTimeOffset _now;
    private long _sequence;

    /// <summary>Takes a record.</summary>
    /// <param name="record">A timed record without a mistake.</param>
    /// <param name="source">Where it comes from, for the complaint.</param>
    /// <param name="number">Number of its line.</param>
    /// <returns>The moment after it and the cue that starts with it, or why it cannot be taken.</returns>
    public Parsed<GuideMoment> Take(SignalLine record, string source, int number)
    {
        if (record.Utc is not { } utc)
        {
            return new ParseError(source, number, 1, "the record has no time; give t=");
        }

        if (_opened is { } && utc < _now)
        {
            return new ParseError(source, number, 1, $"t falls from {UtcText.Format(_now)} to {UtcText.Format(utc)}; records must come in the order of their times");
        }

        Cue? cue = null;
        _now = utc;
        if (_opened is null)
        {
            _opened = utc;
            Step(Sources.Program, new SessionOpened(settings), ref cue);
        }

        SessionEvent happened = record.Sample is { } sample ? new SignalMeasured(FeedSettings.Signal.Name, sample) : new Ticked();
        Snapshot snapshot = Step(record.Sample is null ? Sources.Clock : FeedSettings.Signal.Name, happened, ref cue);
        if (RemoteKeys.Of(record.Pressed) is { } key)
        {
            snapshot = Step(Sources.Keys, new OperatorPressed(key), ref cue);
        }

        return new GuideMoment(snapshot, cue);
    }

    /// <summary>Ends the session: the last event of a kept one.</summary>
    public void End()
    {
        Cue? cue = null;
        if (_opened is not null)
        {
            Step(Sources.Program, new SessionClosed("the records ended"), ref cue);
        }
    }

    private Snapshot Step(string source, SessionEvent happened, ref Cue? cue)
    {
        Envelope envelope = new(++_sequence, _now - _opened.GetValueOrDefault(_now), _now, source, happened);
        keep?.Invoke(envelope);
        Snapshot snapshot = _fold.Step(envelope);
        cue ??= snapshot.Cues.Started.IsEmpty ? null : snapshot.Cues.Started[0];
        return snapshot;
    }
}

/// <summary>One moment of the filter.</summary>
/// <param name="Snapshot">The moment after the record.</param>
/// <param name="Cue">The cue that starts with it; null when none does.</param>
public sealed record GuideMoment(Snapshot Snapshot, Cue? Cue);
