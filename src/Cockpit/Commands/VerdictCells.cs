using System.Globalization;
using Cockpit.Core.Verdicts;

namespace Cockpit.Commands;

/// <summary>The columns that a verdict adds to the list of passes.</summary>
internal static class VerdictCells
{
    /// <summary>Their names, in the order of <see cref="Of"/>.</summary>
    public static IReadOnlyList<OutputColumn> Columns { get; } =
    [
        new("margin_db", "margin", 6), new("margin_uncertainty_db", null, 0), new("least_margin_db", null, 0),
        new("receivable_share", null, 0), new("receivable_s", null, 0), new("nudges", null, 0),
        new("travel", null, 0), new("azimuth_travel_deg", null, 0),
        new("sun_below_satellite_deg", null, 0), new("light", null, 0),
        new("beam_width_deg", null, 0), new("sun_separation_deg", null, 0), new("sun_near", null, 0), new("moon_separation_deg", null, 0), new("moon_near", null, 0),
        new("along_track_up_to_km", null, 0), new("along_track_up_to_s", null, 0), new("aside_up_to_deg", null, 0),
        new("clashes", null, 0), new("score", null, 0), new("verdict", null, 0), new("sentence", null, 0),
    ];

    /// <summary>Their values.</summary>
    public static IReadOnlyList<Cell> Of(PassVerdict verdict) =>
    [
        Cell.Of(verdict.MarginAtCulmination.Value, 3) with { Brief = verdict.MarginAtCulmination.Value.ToString("+0.0;-0.0", CultureInfo.InvariantCulture) },
        Cell.Of(verdict.MarginUncertainty.Value, 1), Cell.Of(verdict.LeastMargin.Value, 3),
        Cell.Of(verdict.ReceivableShare, 4), Cell.Of(verdict.Receivable.TotalSeconds, 1), Cell.Of(verdict.Nudges),
        Cell.Of(verdict.Travel), Cell.Of(verdict.Round.Degrees, 3),
        Cell.Of(verdict.SunBelowSatellite.Degrees, 3), Cell.Of(LightOf(verdict.Light)),
        Cell.Of(verdict.BeamWidth.Degrees, 3),
        Cell.Of(verdict.Sun?.Separation.Degrees, 2), Cell.Of(verdict.SunNear), Cell.Of(verdict.Moon?.Separation.Degrees, 2), Cell.Of(verdict.MoonNear),
        Cell.Of(verdict.ElementAge.HighKm, 2), Cell.Of(verdict.ElementAge.HighSeconds, 2), Cell.Of(verdict.Aside.Degrees, 3),
        Cell.Of(ClashesOf(verdict)),
        Cell.Of(verdict.Score, 1), Cell.Of(verdict.Word.ToString().ToLowerInvariant()), Cell.Of(verdict.Sentence),
    ];

    private static string ClashesOf(PassVerdict verdict)
    {
        string named = string.Join("; ", verdict.Clashes.Select(clash => clash.Satellite));
        return verdict.FurtherClashes == 0 ? named : string.Create(CultureInfo.InvariantCulture, $"{named}; and {verdict.FurtherClashes} more");
    }

    internal static string LightOf(PictureLight light) => light switch
    {
        PictureLight.Daylight => "daylight",
        PictureLight.Mixed => "part daylight",
        _ => "infra-red only",
    };
}
