using System.Collections.Immutable;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>Says why a run of lines was lost, from what the session holds: plain evidence first, then the aim.</summary>
/// <param name="log">The session.</param>
/// <param name="course">The level's course; null when nothing was measured.</param>
/// <param name="ledger">The lines.</param>
internal sealed class GapJudge(ReviewLog log, LevelCourse? course, LineLedger ledger)
{
    private const double Most = 0.5;
    private const double ClippedShare = 0.001;
    private const double ShortestStop = 3.0;
    private const double EdgeSeconds = 2.0;
    private const double SkylineBelowDegrees = 30.0;
    private const double FoundWithinDb = 2.0;
    private const int FoundBlocks = 4;
    private const double WellBelowDb = 1.5;
    private const double UsualLossDb = 0.5;
    private const double ShownWithinDb = 2.5;

    /// <summary>After the way around the sun the hand needs this long to be back on the satellite.</summary>
    private static readonly TimeSpan BackFromTheSun = TimeSpan.FromSeconds(6);

    private readonly double _foundAt = FoundAt(log, course);
    private readonly double _end = ledger.TimeOf(ledger.States.Length);

    /// <summary>The cause of a gap, and how sure.</summary>
    /// <param name="from">Begin, session time, seconds.</param>
    /// <param name="to">End, seconds.</param>
    public (GapCause Cause, double Confidence) Judge(double from, double to)
    {
        ImmutableArray<ReviewBlock> inside = [.. log.Blocks.Where(b => b.Start + ReviewBlock.Seconds > from && b.Start < to)];
        if (inside.IsEmpty)
        {
            return (GapCause.Unknown, 0.0);
        }

        double silent = Share(inside, b => b.Samples == 0);
        if (silent >= Most)
        {
            return (GapCause.FeedSilent, 0.5 + (0.5 * silent));
        }

        double clipped = Share(inside, b => b.Clipped > ClippedShare);
        if (clipped >= Most)
        {
            return (GapCause.Overload, 0.5 + (0.5 * clipped));
        }

        if (course is null)
        {
            return (GapCause.Unknown, 0.0);
        }

        double fine = Share(inside, b => b.Locked > 0.5 && (course.NeedDb is not { } need || b.LevelDb > need + 0.5));
        double around = Share(inside, IsAroundTheSun);
        return ledger.By == LineEvidence.Frames && fine > 0.8 && to - from > ShortestStop ? (GapCause.RecorderStopped, fine)
            : !course.SignalSeen ? (GapCause.NotTransmitting, 0.7)
            : around >= Most ? (GapCause.Sun, 0.5 + (0.4 * around))
            : from < _foundAt - ReviewBlock.Seconds ? Unfound(inside, from, to)
            : Aimed(inside, from, to);
    }

    private bool IsAroundTheSun(ReviewBlock block) =>
        log.PlannedHolds.Any(hold => hold.Skip is not null && block.Utc >= hold.FromUtc && block.Utc < hold.ToUtc + BackFromTheSun);

    /// <summary>Since when the satellite was in the beam for the first time; never when it was not.</summary>
    private static double FoundAt(ReviewLog log, LevelCourse? course)
    {
        int good = 0;
        foreach (ReviewBlock block in log.Blocks)
        {
            bool near = course is not null && block is { LevelDb: { } level, Look: { } look } && look.Elevation > Angle.Zero
                && level > course.ReachableDb(log.Settings, look) - FoundWithinDb && level > course.FloorDb + FoundWithinDb;
            good = near ? good + 1 : 0;
            if (good >= FoundBlocks)
            {
                return block.Start - ((FoundBlocks - 1) * ReviewBlock.Seconds);
            }
        }

        return double.MaxValue;
    }

    private static double Share(ImmutableArray<ReviewBlock> blocks, Func<ReviewBlock, bool> test) => (double)blocks.Count(test) / blocks.Length;

    // Before the first time in the beam: the satellite may have been too weak, hidden, or simply not found.
    private (GapCause Cause, double Confidence) Unfound(ImmutableArray<ReviewBlock> inside, double from, double to)
    {
        // How a course goes where it was never seen is not known to a decibel; but a satellite that is only too weak shows what little there is.
        double margin = MarginDb(inside);
        if (margin < -WellBelowDb || (margin < UsualLossDb && MissingDb(inside) < ShownWithinDb))
        {
            return (GapCause.Weak, 0.7);
        }

        return LowAt(to) && RoseByItself(to) ? (GapCause.Skyline, 0.6) : (GapCause.NotFound, 0.9);
    }

    private (GapCause Cause, double Confidence) Aimed(ImmutableArray<ReviewBlock> inside, double from, double to)
    {
        var evidence = GapEvidence.Of(log, from, to);
        double margin = MarginDb(inside);
        if (evidence is not { Dish: { } dish, Blocks.Length: >= 4 })
        {
            return margin < 0.5 ? (GapCause.Weak, 0.6) : (GapCause.OffAim, 0.3);
        }

        bool skyline = AtAnEnd(from, to) && LowAt(to >= _end - EdgeSeconds ? from : to);
        IReadOnlyDictionary<GapCause, double> shares = new GapSuppositions(log, course!, evidence, dish) { Skyline = skyline }.Weigh();
        (GapCause cause, double share) = shares.MaxBy(s => s.Value);
        return cause switch
        {
            GapCause.Fade when skyline => (GapCause.Skyline, share),
            _ => (cause, share),
        };
    }

    // What a perfect aim would have had over the need.
    private double MarginDb(ImmutableArray<ReviewBlock> blocks) => course?.NeedDb is { } need
        ? blocks.Where(b => b.Look is not null).Select(b => course.ReachableDb(log.Settings, b.Look!.Value) - need).DefaultIfEmpty(double.MaxValue).Average()
        : double.MaxValue;

    // How far the level was under that of a perfect aim.
    private double MissingDb(ImmutableArray<ReviewBlock> blocks) => course is null ? 0.0 : blocks
        .Where(b => b is { Look: not null, LevelDb: not null })
        .Select(b => course.ReachableDb(log.Settings, b.Look!.Value) - b.LevelDb!.Value).DefaultIfEmpty(0.0).Average();

    private bool AtAnEnd(double from, double to) => from <= ledger.Start + EdgeSeconds || to >= _end - EdgeSeconds;

    private bool LowAt(double at) => log.Blocks.Where(b => b.Start >= at - 1.0).Select(b => b.Look).FirstOrDefault() is { } look
        && look.Elevation.Degrees < SkylineBelowDegrees;

    // A step up while no hand was asked to search: something that does not move got out of the way.
    private bool RoseByItself(double at)
    {
        double? before = LevelAround(at - 2.0);
        double? after = LevelAround(at + 1.0);
        bool asked = log.Blocks.Any(b => b.Start > at - 4.0 && b.Start < at && b.Word is AimWord.Search)
            || log.Keys.Any(k => k.At > at - 4.0 && k.At < at)
            || log.Keys.Any(k => k.Key == OperatorKey.Peaked && k.At >= at && k.At < at + 2.5)
            || log.Calls.Any(c => c.At > at - 3.0 && c.At < at);
        return !asked && after - before > 4.0;
    }

    private double? LevelAround(double at) => log.Blocks.Where(b => b.LevelDb is not null && Math.Abs(b.Start - at) <= 0.75).Select(b => b.LevelDb).Average();
}
