using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Link;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Session.Review;

/// <summary>Makes the review of what was gathered. Pure.</summary>
public static class Reviewer
{
    private const double MergeSeconds = 2.0;
    private const int FewestLinesOfAPart = 60;
    private const double HighDegrees = 30.0;

    /// <summary>The review.</summary>
    /// <param name="log">What was gathered of the session.</param>
    /// <returns>Null when the session has no pass, or does not touch it for a second.</returns>
    public static SessionReview? Make(ReviewLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        if (log.Pass is not { } pass || Watched(log, pass) is not var (start, end, from, unwatched))
        {
            return null;
        }

        ImmutableArray<ReviewBlock> inPass = [.. log.Blocks.Where(b => b.Start + ReviewBlock.Seconds > start && b.Start < end)];
        LineLedger? counted = LineLedger.ByFrames(log.Frames, start, end);
        var course = LevelCourse.Fit(log.Settings, log.Blocks, inPass, null);
        double? need = counted is null ? NeedByLock(inPass) : LevelNeed.ByLines(Lost(inPass, counted));
        course = course is null ? null : course with { NeedDb = need ?? NeedByLock(inPass) ?? NeedByBudget(log, course) };
        LineLedger ledger = counted ?? LineLedger.ByLevel(log.Blocks, course?.NeedDb, start, end);

        ImmutableArray<Gap> gaps = Gaps(log, course, ledger, from);
        int lost = ledger.States.Count(s => s == LineState.Lost);
        int sent = ledger.States.Length;
        HandReview hand = HandReviewer.Make(log, course, start, end);
        Slip carrier = SlipFit.Of(log.Offsets.AsSpan());
        DopplerSlip? doppler = carrier.SlipSeconds is { } slip ? new DopplerSlip(slip, carrier.Sd) : null;
        return new SessionReview(
            log.Settings.SatelliteName,
            from,
            from + TimeSpan.FromSeconds(end - start),
            pass.Tca.Look.Elevation,
            new LineCount(sent, sent - lost, lost, ledger.By, unwatched),
            ledger.States,
            gaps,
            hand,
            doppler,
            Parts(inPass, ledger),
            Advisor.Make(gaps, hand, doppler, sent),
            course?.NeedDb,
            [.. inPass.Select(b => Point(log, course, b))])
        {
            Edges = course is null ? [] : SkyEdge.Of(log, course),
            Carrier = doppler is null ? null : CarrierReview.Of(doppler, log.Settings.Elements is { } set ? (from - set.EpochUtc).TotalDays : null, log.Clock),
        };
    }

    // Session time of the part of the pass that the session covers.
    private static (double Start, double End, DateTimeOffset From, int Unwatched)? Watched(ReviewLog log, Pass pass)
    {
        ReviewBlock[] inside = [.. log.Blocks.Where(b => b.Utc + TimeSpan.FromSeconds(ReviewBlock.Seconds) > pass.Aos.Utc && b.Utc < pass.Los.Utc)];
        if (inside.Length < 2)
        {
            return null;
        }

        double start = inside[0].Start + Math.Max(0.0, (pass.Aos.Utc - inside[0].Utc).TotalSeconds);
        double end = inside[^1].Start + Math.Min(ReviewBlock.Seconds, (pass.Los.Utc - inside[^1].Utc).TotalSeconds);
        DateTimeOffset from = inside[0].Utc + TimeSpan.FromSeconds(start - inside[0].Start);
        int whole = LineLedger.CountIn(pass.Duration.TotalSeconds);
        return end - start < 1.0 ? null : (start, end, from, Math.Max(0, whole - LineLedger.CountIn(end - start)));
    }

    private static ImmutableArray<Gap> Gaps(ReviewLog log, LevelCourse? course, LineLedger ledger, DateTimeOffset from)
    {
        // A gap is judged by itself, which takes most of a review's time: on all processors.
        var judge = new GapJudge(log, course, ledger);
        (int First, int Last, int Lost)[] runs = [.. Runs(ledger.States)];
        var gaps = new Gap[runs.Length];
        DateTimeOffset At(int line) => from + TimeSpan.FromSeconds(line / LineLedger.LinesPerSecond);
        Parallel.For(0, runs.Length, i =>
        {
            (int first, int last, int lost) = runs[i];
            (GapCause cause, double confidence) = judge.Judge(ledger.TimeOf(first), ledger.TimeOf(last + 1));
            gaps[i] = new Gap(At(first), At(last + 1), lost, cause, Math.Round(Math.Clamp(confidence, 0.0, 1.0), 3));
        });

        return [.. gaps];
    }

    // Lost lines with less than two seconds of good ones between them are one gap.
    private static IEnumerable<(int First, int Last, int Lost)> Runs(ImmutableArray<LineState> states)
    {
        int apart = (int)(MergeSeconds * LineLedger.LinesPerSecond);
        (int First, int Last, int Lost)? open = null;
        for (int line = 0; line < states.Length; line++)
        {
            if (states[line] != LineState.Lost)
            {
                continue;
            }

            if (open is { } run && line - run.Last <= apart)
            {
                open = (run.First, line, run.Lost + 1);
                continue;
            }

            if (open is { } done)
            {
                yield return done;
            }

            open = (line, line, 1);
        }

        if (open is { } end)
        {
            yield return end;
        }
    }

    private static List<(double LevelDb, double Lost)> Lost(ImmutableArray<ReviewBlock> blocks, LineLedger ledger)
    {
        var list = new List<(double, double)>();
        foreach (ReviewBlock block in blocks)
        {
            int first = (int)Math.Ceiling((block.Start - ledger.Start) * LineLedger.LinesPerSecond);
            int last = (int)Math.Ceiling((block.Start + ReviewBlock.Seconds - ledger.Start) * LineLedger.LinesPerSecond);
            if (block is { LevelDb: { } level, Clipped: null or < 0.001 } && first >= 0 && last <= ledger.States.Length && last > first)
            {
                list.Add((level, (double)ledger.States.AsSpan()[first..last].Count(LineState.Lost) / (last - first)));
            }
        }

        return list;
    }

    private static double? NeedByLock(ImmutableArray<ReviewBlock> blocks) => LevelNeed.ByLines(
        [.. blocks.Where(b => b is { LevelDb: not null, Locked: not null }).Select(b => (b.LevelDb!.Value, 1.0 - b.Locked!.Value))]);

    // A level that is C/N0 itself needs what the service's budget says.
    private static double? NeedByBudget(ReviewLog log, LevelCourse course) =>
        Math.Abs(course.GainDb) < 6.0 ? new Core.Link.LinkModel { Carrier = log.Settings.Downlink }.Service.RequiredCarrierToNoiseDensity.Value : null;

    private static ImmutableArray<SkyPart> Parts(ImmutableArray<ReviewBlock> blocks, LineLedger ledger)
    {
        var parts = new Dictionary<(int Eighth, bool High), (int Sent, int Received)>();
        for (int line = 0; line < ledger.States.Length; line++)
        {
            int at = (int)Math.Floor((ledger.TimeOf(line) - blocks[0].Start) / ReviewBlock.Seconds);
            if (blocks[Math.Clamp(at, 0, blocks.Length - 1)].Look is { } look)
            {
                var key = ((int)Math.Round(look.Azimuth.Degrees / 45.0) % 8, look.Elevation.Degrees >= HighDegrees);
                (int sent, int received) = parts.GetValueOrDefault(key);
                parts[key] = (sent + 1, received + (ledger.States[line] == LineState.Received ? 1 : 0));
            }
        }

        return
        [
            .. parts.Where(p => p.Value.Sent >= FewestLinesOfAPart)
                .Select(p => new SkyPart(Angle.FromDegrees(45.0 * p.Key.Eighth), p.Key.High, p.Value.Sent, p.Value.Received))
                .OrderBy(p => p.Azimuth).ThenBy(p => p.High),
        ];
    }

    private static CoursePoint Point(ReviewLog log, LevelCourse? course, ReviewBlock block)
    {
        double? reachable = block.Look is { } look && course is not null ? course.ReachableDb(log.Settings, look) : null;
        Angle? off = block is { Look: { } seen, Dish: { } dish }
            ? AimErrors.Separation(dish.Azimuth, dish.Elevation, seen.Azimuth, seen.Elevation)
            : null;
        return new CoursePoint(
            block.Utc + TimeSpan.FromSeconds(0.5 * ReviewBlock.Seconds), block.LevelDb, reachable, block.Look?.Azimuth, block.Look?.Elevation, block.Dish, off);
    }
}
