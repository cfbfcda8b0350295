using System.Collections.Immutable;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Events;

namespace Cockpit.Session.Review;

/// <summary>How the level of a well-pointed dish went along this pass, by the level itself, and what the service needs.</summary>
/// <param name="GainDb">Reading less C/N0 of the link budget at the reference range.</param>
/// <param name="SlopeShare">How much more the reading falls than the budget does, dB for each dB of free space.</param>
/// <param name="FloorDb">The reading without a signal.</param>
/// <param name="HighestDb">The highest mean over two seconds.</param>
/// <param name="NeedDb">The reading at which half of the lines are lost; null where the session does not tell.</param>
public sealed record LevelCourse(double GainDb, double SlopeShare, double FloorDb, double HighestDb, double? NeedDb)
{
    private const double ReferenceRangeKm = 1442.0; // 830 km up, 30° high
    private const double SlopeSd = 0.4;
    private const double KeptBelowDb = 1.2;
    private const double KeptAboveDb = 2.5;
    private const double SignalOverFloorDb = 2.5;
    private const int Rounds = 12;
    private const int FewestBlocks = 8;

    /// <summary>Whether anything but the floor was ever measured.</summary>
    public bool SignalSeen => HighestDb > FloorDb + SignalOverFloorDb;

    /// <summary>What a perfectly pointed dish would show.</summary>
    /// <param name="settings">Dish and carrier.</param>
    /// <param name="look">Where the satellite is.</param>
    public double ReachableDb(SessionSettings settings, LookAngles look) =>
        ExpectedLevel.Of(settings).ShapeDb(look) + GainDb + (SlopeShare * FreeSpaceDb(look));

    /// <summary>Fits the course to the upper edge of what was measured: what lies well below it was lost on the way or by the aim.</summary>
    /// <param name="settings">Dish and carrier.</param>
    /// <param name="blocks">All half seconds of the session.</param>
    /// <param name="usual">Blocks of the pass.</param>
    /// <param name="need">Finds the need once the ledger is known; see <see cref="LevelNeed"/>.</param>
    /// <returns>Null when too little was measured.</returns>
    public static LevelCourse? Fit(SessionSettings settings, ImmutableArray<ReviewBlock> blocks, ImmutableArray<ReviewBlock> usual, double? need)
    {
        ExpectedLevel budget = ExpectedLevel.Of(settings);
        (double X, double Y)[] points = [.. usual
            .Where(b => b is { LevelDb: not null, Look: { } look } && look.Elevation > Angle.Zero)
            .Select(b => (FreeSpaceDb(b.Look!.Value), b.LevelDb!.Value - budget.ShapeDb(b.Look.Value)))];
        if (points.Length < FewestBlocks)
        {
            return null;
        }

        double floor = Floor(blocks);
        double highest = HighestMean(usual);
        double[] sorted = [.. points.Select(p => p.Y).Order()];
        double gain = sorted[(int)(0.85 * (sorted.Length - 1))];
        double slope = 0.0;
        for (int round = 0; round < Rounds; round++)
        {
            (gain, slope) = Once(points, gain, slope);
        }

        return new LevelCourse(gain, slope, floor, highest, need);
    }

    private static (double Gain, double Slope) Once((double X, double Y)[] points, double gain, double slope)
    {
        double n = 0.0;
        double sx = 0.0;
        double sy = 0.0;
        double sxx = 1.0 / (SlopeSd * SlopeSd); // the budget is a prior: a slope of zero with that spread, worth one point
        double sxy = 0.0;
        foreach ((double x, double y) in points)
        {
            double left = y - gain - (slope * x);
            if (left > -KeptBelowDb && left < KeptAboveDb)
            {
                n += 1.0;
                sx += x;
                sy += y;
                sxx += x * x;
                sxy += x * y;
            }
        }

        double determinant = (n * sxx) - (sx * sx);
        return n < FewestBlocks || determinant <= 0.0
            ? (gain, slope)
            : (((sy * sxx) - (sx * sxy)) / determinant, ((n * sxy) - (sx * sy)) / determinant);
    }

    private static double FreeSpaceDb(LookAngles look) => -20.0 * Math.Log10(look.RangeKm / ReferenceRangeKm);

    // With the satellite below the horizon it is known to be the floor; else it is the lowest that two seconds showed.
    private static double Floor(ImmutableArray<ReviewBlock> blocks)
    {
        double[] below = [.. blocks.Where(b => b is { LevelDb: not null, Look: { } look } && look.Elevation < Angle.Zero).Select(b => b.LevelDb!.Value).Order()];
        return below.Length >= FewestBlocks ? below[below.Length / 2] : Means(blocks).DefaultIfEmpty(0.0).Min();
    }

    private static double HighestMean(ImmutableArray<ReviewBlock> blocks) => Means(blocks).DefaultIfEmpty(double.NegativeInfinity).Max();

    private static IEnumerable<double> Means(ImmutableArray<ReviewBlock> blocks)
    {
        for (int i = 3; i < blocks.Length; i++)
        {
            if (blocks[i].LevelDb is { } a && blocks[i - 1].LevelDb is { } b && blocks[i - 2].LevelDb is { } c && blocks[i - 3].LevelDb is { } d)
            {
                yield return (a + b + c + d) / 4.0;
            }
        }
    }
}

/// <summary>Finds the level that the service needs, in the unit of the feed.</summary>
public static class LevelNeed
{
    private const int Fewest = 6;

    /// <summary>By lines that came and lines that did not: the level that parts them with the fewest mistakes.</summary>
    /// <param name="blocks">Level of a half second, and the share of its lines that was lost.</param>
    /// <returns>Null when too few were lost or too few received to tell.</returns>
    public static double? ByLines(IReadOnlyCollection<(double LevelDb, double Lost)> blocks)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        (double LevelDb, double Lost)[] sorted = [.. blocks.OrderBy(b => b.LevelDb)];
        if (sorted.Count(b => b.Lost > 0.5) < Fewest || sorted.Count(b => b.Lost < 0.5) < Fewest)
        {
            return null;
        }

        // Everything below the cut is called lost, everything above received.
        double wrong = sorted.Sum(b => b.Lost);
        double least = wrong;
        (int first, int last) = (0, 0);
        for (int cut = 1; cut <= sorted.Length; cut++)
        {
            wrong += 1.0 - (2.0 * sorted[cut - 1].Lost);
            if (wrong < least - 1e-9)
            {
                (least, first, last) = (wrong, cut, cut);
            }
            else if (wrong <= least + 1e-9)
            {
                last = cut;
            }
        }

        int middle = (first + last) / 2;
        return middle == 0 ? sorted[0].LevelDb
            : middle == sorted.Length ? sorted[^1].LevelDb
            : 0.5 * (sorted[middle - 1].LevelDb + sorted[middle].LevelDb);
    }
}
