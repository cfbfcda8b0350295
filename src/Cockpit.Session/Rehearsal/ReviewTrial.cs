using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Session.Rehearsal;

/// <summary>Reviews simulated passes whose truth is known, and counts what the review said of each gap.</summary>
/// <param name="Said">Gaps that were made, by truth and by what was said.</param>
/// <param name="Loose">What was said of gaps off aim that nobody made: small errors of the hand and wrong beliefs of the guidance added up.</param>
/// <param name="Unclear">Gaps that were not judged, because the truth itself is not one clear cause.</param>
/// <param name="Passes">Passes flown.</param>
/// <param name="LinesLost">Lines lost, by the truth.</param>
/// <param name="LinesSaid">Lines lost, by the review.</param>
/// <param name="WorstPass">Largest difference of lines lost in a pass, as a share of the lines sent.</param>
public sealed record ReviewTrial(
    ImmutableDictionary<(GapCause Truth, GapCause Said), int> Said,
    ImmutableDictionary<GapCause, int> Loose,
    int Unclear,
    int Passes,
    double LinesLost,
    int LinesSaid,
    double WorstPass)
{
    /// <summary>Gaps shorter than this are not judged: one second.</summary>
    public const int FewestLines = 6;

    /// <summary>A gap is judged when the truth itself gives at least this share of its lines to one cause.</summary>
    public const double ClearShare = 0.6;

    /// <summary>Between "too weak" and "badly aimed" stands what a well-held dish would have had; a gap where that is within this of the need is neither, dB.</summary>
    public const double ClearDb = 1.0;

    private const double SlackSeconds = 0.3;

    /// <summary>Gaps judged.</summary>
    public int Gaps => Said.Values.Sum();

    /// <summary>Share of the gaps whose cause was right, 0..1; "unknown" is wrong.</summary>
    public double Right => Gaps > 0 ? (double)Said.Where(s => s.Key.Truth == s.Key.Said).Sum(s => s.Value) / Gaps : 0.0;

    /// <summary>Gaps of one truth.</summary>
    public int Count(GapCause truth) => Said.Where(s => s.Key.Truth == truth).Sum(s => s.Value);

    /// <summary>Flies and reviews.</summary>
    /// <param name="firstSeed">The first pass.</param>
    /// <param name="passes">How many.</param>
    public static ReviewTrial Of(ulong firstSeed, int passes)
    {
        var said = ImmutableDictionary.CreateBuilder<(GapCause, GapCause), int>();
        var loose = ImmutableDictionary.CreateBuilder<GapCause, int>();
        double lost = 0.0;
        int counted = 0;
        int unclear = 0;
        double worst = 0.0;
        foreach ((FaultyPass flown, SessionReview? reviewed) in Enumerable.Range(0, passes).AsParallel().AsOrdered().Select(i => Flown(firstSeed + (ulong)i)))
        {
            if (reviewed is not { } review)
            {
                continue;
            }

            lost += flown.LinesLost;
            counted += review.Lines.Lost;
            worst = Math.Max(worst, Math.Abs(review.Lines.Lost - flown.LinesLost) / review.Lines.Sent);
            foreach (Gap gap in review.Gaps)
            {
                if (gap.Lines < FewestLines)
                {
                    continue;
                }

                if (TruthOf(flown, gap) is { } truth && !IsMade(flown, gap, truth))
                {
                    loose[gap.Cause] = loose.GetValueOrDefault(gap.Cause) + 1;
                }
                else if (TruthOf(flown, gap) is { } made)
                {
                    said[(made, gap.Cause)] = said.GetValueOrDefault((made, gap.Cause)) + 1;
                }
                else
                {
                    unclear++;
                }
            }
        }

        return new ReviewTrial(said.ToImmutable(), loose.ToImmutable(), unclear, passes, lost, counted, worst);
    }

    private static (FaultyPass Flown, SessionReview? Reviewed) Flown(ulong seed)
    {
        var flown = FaultyPass.Fly(seed);
        return (flown, Reviewer.Make(flown.Log));
    }

    /// <summary>Whether the cause of a gap was put into the simulation, or is plain physics; else it only came about.</summary>
    public static bool IsMade(FaultyPass flown, Gap gap, GapCause truth)
    {
        LineTruth[] lost = [.. Lost(flown, gap).Where(t => t.Cause == truth)];
        return 2 * lost.Count(t => t.Made) >= lost.Length;
    }

    /// <summary>What a gap's lines were lost by; null where the truth knows no loss there, or no one cause for <see cref="ClearShare"/> of it.</summary>
    public static GapCause? TruthOf(FaultyPass flown, Gap gap)
    {
        LineTruth[] lost = Lost(flown, gap);
        IGrouping<GapCause?, LineTruth>? most = lost.GroupBy(t => t.Cause).MaxBy(g => g.Count());
        bool clear = most is not null && most.Count() >= ClearShare * lost.Length
            && (most.Key is not (GapCause.Weak or GapCause.OffAim or GapCause.Late or GapCause.Amount or GapCause.WrongWay or GapCause.NotFound)
                || Math.Abs(lost.Average(t => t.SpareDb)) >= ClearDb);
        return clear ? most?.Key : null;
    }

    private static LineTruth[] Lost(FaultyPass flown, Gap gap)
    {
        int Step(DateTimeOffset utc) => (int)Math.Round((utc - flown.From).TotalSeconds / SimulatedReceiver.Step.TotalSeconds);
        int slack = (int)(SlackSeconds / SimulatedReceiver.Step.TotalSeconds);
        int from = Math.Max(0, Step(gap.FromUtc) - slack);
        int to = Math.Min(flown.Truth.Length, Step(gap.ToUtc) + slack);
        return [.. flown.Truth[from..Math.Max(from, to)].Where(t => t.Cause is not null)];
    }
}
