using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>Finds the moments of a session that are worth a look: marks, nudges, alarms, and the gaps of its review.</summary>
public sealed class MilestoneFinder
{
    /// <summary>An alarm that sounds again within this time is the same one.</summary>
    private static readonly TimeSpan SameAlarm = TimeSpan.FromSeconds(60);

    private readonly ImmutableArray<Milestone>.Builder _found = ImmutableArray.CreateBuilder<Milestone>();
    private readonly Dictionary<string, TimeSpan> _alarms = new(StringComparer.Ordinal);
    private Snapshot? _before;

    /// <summary>The milestones of a session, in order of time, and its review; null where it does not reach into its pass.</summary>
    /// <param name="envelopes">Its events, in order.</param>
    /// <param name="stop">Asked now and then; ends the work early, with what was found.</param>
    public static (ImmutableArray<Milestone> Milestones, SessionReview? Review) Of(ImmutableArray<Envelope> envelopes, CancellationToken stop)
    {
        Fold fold = new();
        MilestoneFinder finder = new();
        ReviewRecorder recorder = new();
        foreach (Envelope envelope in envelopes)
        {
            if (stop.IsCancellationRequested)
            {
                break;
            }

            Snapshot snapshot = fold.Step(envelope);
            recorder.Add(envelope.Event, snapshot);
            finder.Add(snapshot);
        }

        SessionReview? review = null;
        if (!stop.IsCancellationRequested && recorder.Log() is { } log && Reviewer.Make(log) is { } made)
        {
            review = made;
            finder.AddGaps(made, log);
        }

        return ([.. finder._found.OrderBy(milestone => milestone.At)], review);
    }

    private void Add(Snapshot now)
    {
        if (now.Answer is { Taken: true, Key: OperatorKey.Peaked or OperatorKey.Moved or OperatorKey.NotMoved } answer)
        {
            Found(now, MilestoneKind.Mark, KeyWords(answer.Key));
        }

        if (IsNewCall(now) && now.Aim.Nudge is { } nudge)
        {
            string word = MoveWord.For(nudge, now.Aim.BeamWidth, now.Aim.Mount)?.Text ?? "a small move";
            Found(now, MilestoneKind.Nudge, word);
        }

        foreach (Cue cue in now.Cues.Started)
        {
            if (cue.Kind is CueKind.Warning or CueKind.Caution && IsNewAlarm(cue, now.Elapsed))
            {
                Found(now, MilestoneKind.Alarm, cue.Text);
            }
        }

        _before = now;
    }

    private bool IsNewCall(Snapshot now) =>
        now.Aim.Word == AimWord.Move && !(_before?.Aim is { Word: AimWord.Move, NudgeAt: var before } && before == now.Aim.NudgeAt);

    private bool IsNewAlarm(Cue cue, TimeSpan at)
    {
        bool again = _alarms.TryGetValue(cue.Text, out TimeSpan last) && at - last < SameAlarm;
        _alarms[cue.Text] = at;
        return !again;
    }

    private void AddGaps(SessionReview review, ReviewLog log)
    {
        if (log.Blocks.IsEmpty)
        {
            return;
        }

        // Session time runs on where UTC was corrected, so a gap is placed by the block that has its UTC.
        foreach (Gap gap in review.Gaps)
        {
            TimeSpan at = ElapsedOf(log.Blocks, gap.FromUtc);
            string text = string.Create(CultureInfo.InvariantCulture, $"gap: {gap.Lines} lines, {CauseWords.NameOf(gap.Cause)}, {100.0 * gap.Confidence:0} % sure");
            _found.Add(new Milestone(at, at + (gap.ToUtc - gap.FromUtc), MilestoneKind.Gap, text));
        }
    }

    private static TimeSpan ElapsedOf(ImmutableArray<ReviewBlock> blocks, DateTimeOffset utc)
    {
        ReviewBlock block = blocks[0];
        foreach (ReviewBlock next in blocks)
        {
            if (next.Utc > utc)
            {
                break;
            }

            block = next;
        }

        double start = block.Start + (utc - block.Utc).TotalSeconds;
        return TimeSpan.FromSeconds(Math.Max(0.0, start));
    }

    private void Found(Snapshot now, MilestoneKind kind, string text) => _found.Add(new Milestone(now.Elapsed, now.Elapsed, kind, text));

    private static string KeyWords(OperatorKey key) => key switch
    {
        OperatorKey.Peaked => "marked: peaked",
        OperatorKey.Moved => "marked: moved",
        _ => "marked: not moved",
    };
}
