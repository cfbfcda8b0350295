using System.Collections.Immutable;
using System.Globalization;

namespace Cockpit.Session.Review;

/// <summary>One pass as the comparison of passes needs it.</summary>
/// <param name="FromUtc">When the session began, UTC.</param>
/// <param name="Satellite">Its name.</param>
/// <param name="Kind">"live", "demo", "simulated", "rehearsal".</param>
/// <param name="TopDegrees">Highest elevation, degrees.</param>
/// <param name="Sent">Lines sent while it was watched.</param>
/// <param name="Received">Received of them.</param>
/// <param name="ReactionSeconds">From a call to the begin of the move; null where unknown.</param>
/// <param name="Amount">Moves against what was called, 1 = as called; null where unknown.</param>
public sealed record ProgressPass(
    DateTimeOffset FromUtc, string Satellite, string Kind, double TopDegrees, int Sent, int Received, Spread? ReactionSeconds, Spread? Amount)
{
    /// <summary>Received of sent, percent.</summary>
    public double SharePercent => Sent > 0 ? 100.0 * Received / Sent : 0.0;
}

/// <summary>One value at its time.</summary>
/// <param name="Utc">Begin of the session, UTC.</param>
/// <param name="Value">In the unit of its figure.</param>
public readonly record struct ProgressPoint(DateTimeOffset Utc, double Value);

/// <summary>How one figure went over the passes.</summary>
/// <param name="Name">"lines", "reaction", "amount".</param>
/// <param name="Unit">"%", "s", or empty.</param>
/// <param name="Decimals">Decimals worth printing.</param>
/// <param name="Points">In order of time.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Deviation">Their standard deviation; 0 for a single one.</param>
/// <param name="Trend">Change a session; null for too few. That of the lines is freed from the height of the passes.</param>
/// <param name="Better">Whether the numbers carry that it got better (true) or worse (false); null where they carry neither.</param>
public sealed record ProgressFigure(
    string Name, string Unit, int Decimals, ImmutableArray<ProgressPoint> Points, double Mean, double Deviation, Trend? Trend, bool? Better);

/// <summary>Passes of one kind together.</summary>
/// <param name="Name">"below 30°", or a date.</param>
/// <param name="Passes">How many.</param>
/// <param name="Mean">Mean share of the lines, percent.</param>
/// <param name="Deviation">Its standard deviation over the passes, percent; null for a single one.</param>
/// <param name="ReactionSeconds">Mean reaction; null where unknown.</param>
/// <param name="Amount">Mean amount; null where unknown.</param>
public sealed record ProgressGroup(string Name, int Passes, double Mean, double? Deviation, double? ReactionSeconds, double? Amount);

/// <summary>Whether it gets better from pass to pass, as far as the numbers carry it. Pure.</summary>
/// <param name="Passes">Those that count, oldest first.</param>
/// <param name="Figures">Lines, reaction, amount, error of the amount; without those that no pass tells.</param>
/// <param name="ByTop">By highest elevation, lowest first.</param>
/// <param name="ByDate">By day, or by month where there are many days, oldest first.</param>
public sealed record Progress(
    ImmutableArray<ProgressPass> Passes, ImmutableArray<ProgressFigure> Figures, ImmutableArray<ProgressGroup> ByTop, ImmutableArray<ProgressGroup> ByDate)
{
    /// <summary>A pass counts from so many lines on; less than 100 s say little.</summary>
    public const int FewestLines = 600;

    private const int MostDays = 12;

    /// <summary>Bands of the highest elevation with their names, degrees.</summary>
    public static ImmutableArray<(string Name, double From, double To)> Bands { get; } = [("below 30°", 0.0, 30.0), ("30° to 60°", 30.0, 60.0), ("above 60°", 60.0, 91.0)];

    /// <summary>Compares passes.</summary>
    /// <param name="all">In any order; those with too few lines are left out.</param>
    public static Progress Of(IEnumerable<ProgressPass> all)
    {
        ProgressPass[] passes = [.. all.Where(p => p.Sent >= FewestLines).OrderBy(p => p.FromUtc)];
        ProgressFigure?[] figures =
        [
            Figure(passes, "lines", "%", 1, p => p.SharePercent, v => v, freed: true),
            Figure(passes, "reaction", "s", 2, p => p.ReactionSeconds?.Value, v => -v),
            Figure(passes, "amount", "", 2, p => p.Amount?.Value, null),
            Figure(passes, "off amount", "", 2, p => p.Amount is { } a ? Math.Abs(a.Value - 1.0) : null, v => -v),
        ];
        return new Progress([.. passes], [.. figures.OfType<ProgressFigure>()], [.. Tops(passes)], [.. Dates(passes)]);
    }

    private static ProgressFigure? Figure(
        ProgressPass[] passes, string name, string unit, int decimals, Func<ProgressPass, double?> of, Func<double, double>? good, bool freed = false)
    {
        (ProgressPass Pass, double Value)[] told = [.. passes.Where(p => of(p) is not null).Select(p => (p, of(p).GetValueOrDefault()))];
        if (told.Length == 0)
        {
            return null;
        }

        double[] values = [.. told.Select(t => t.Value)];
        Trend? trend = freed && Trend.Of(values, [.. told.Select(t => t.Pass.TopDegrees)]) is { } alone ? alone : Trend.Of(values);
        bool? better = good is not null && trend is { IsCarried: true } carried ? good(carried.Slope) > 0.0 : null;
        return new ProgressFigure(
            name, unit, decimals, [.. told.Select(t => new ProgressPoint(t.Pass.FromUtc, t.Value))], values.Average(), Deviation(values) ?? 0.0, trend, better);
    }

    private static IEnumerable<ProgressGroup> Tops(ProgressPass[] passes) =>
        Bands.Select(b => Group(b.Name, [.. passes.Where(p => p.TopDegrees >= b.From && p.TopDegrees < b.To)])).OfType<ProgressGroup>();

    private static IEnumerable<ProgressGroup> Dates(ProgressPass[] passes)
    {
        bool days = passes.Select(p => p.FromUtc.Date).Distinct().Count() <= MostDays;
        string form = days ? "yyyy-MM-dd" : "yyyy-MM";
        return passes.GroupBy(p => p.FromUtc.ToString(form, CultureInfo.InvariantCulture), StringComparer.Ordinal)
            .Select(g => Group(g.Key, [.. g])).OfType<ProgressGroup>();
    }

    private static ProgressGroup? Group(string name, ProgressPass[] passes) => passes.Length == 0 ? null : new ProgressGroup(
        name,
        passes.Length,
        passes.Average(p => p.SharePercent),
        Deviation([.. passes.Select(p => p.SharePercent)]),
        passes.Average(p => p.ReactionSeconds?.Value),
        passes.Average(p => p.Amount?.Value));

    private static double? Deviation(double[] values)
    {
        double mean = values.Average();
        return values.Length > 1 ? Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1)) : null;
    }
}
