using System.Collections.Immutable;
using Cockpit.Core.Sky;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Exports;

/// <summary>A session ten times a second: each row is what the program knew at that moment, and where the satellite was.</summary>
public static class GridTable
{
    /// <summary>Time between two rows.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromSeconds(0.1);

    /// <summary>Longest session that is put on a grid.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(2);

    /// <summary>The table.</summary>
    /// <param name="envelopes">The events in their order; at least one.</param>
    /// <param name="review">The review; null where the session does not reach into its pass.</param>
    /// <param name="about">What the table is about.</param>
    public static ExportTable Of(ImmutableArray<Envelope> envelopes, SessionReview? review, ImmutableArray<KeyValuePair<string, string>> about) =>
        new(about, GridColumns.All, Rows(envelopes, review is null ? null : new LostLines(review)));

    private static IEnumerable<ExportValue[]> Rows(ImmutableArray<Envelope> envelopes, LostLines? lines)
    {
        var fold = new Fold();
        SkyPlan? plan = null;
        TruthRecorded? truth = null;
        Snapshot? snapshot = null;
        int next = 0;
        long first = (envelopes[0].Elapsed.Ticks + Step.Ticks - 1) / Step.Ticks;
        long last = envelopes[^1].Elapsed.Ticks / Step.Ticks;
        for (long step = first; step <= last; step++)
        {
            TimeSpan at = Step * step;
            for (; next < envelopes.Length && envelopes[next].Elapsed <= at; next++)
            {
                snapshot = fold.Step(envelopes[next]);
                truth = envelopes[next].Event as TruthRecorded ?? truth;
                plan = envelopes[next].Event is SessionOpened opened ? SkyPlan.For(opened.Settings, envelopes[next].Utc) : plan;
            }

            if (snapshot is not null)
            {
                DateTimeOffset utc = snapshot.Utc + (at - snapshot.Elapsed);
                yield return GridColumns.Row(new GridMoment(at, utc, snapshot, plan?.Track.At(utc), truth, lines));
            }
        }
    }
}

/// <summary>What a row is made of.</summary>
/// <param name="Elapsed">Session time.</param>
/// <param name="Utc">The same in UTC.</param>
/// <param name="Snapshot">What the program knew: after the last event up to then.</param>
/// <param name="Look">Where the satellite was; null without a pass.</param>
/// <param name="Truth">Where the simulated dish really pointed; null in the field.</param>
/// <param name="Lines">The lines of the picture; null without a review.</param>
internal readonly record struct GridMoment(TimeSpan Elapsed, DateTimeOffset Utc, Snapshot Snapshot, LookAngles? Look, TruthRecorded? Truth, LostLines? Lines);
