using System.Globalization;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Commands;

/// <summary>The columns of an evening for programs; the units stand in the names.</summary>
internal static class TonightCells
{
    /// <summary>Their names, in the order of <see cref="Of"/>.</summary>
    public static IReadOnlyList<OutputColumn> Columns { get; } =
    [
        .. new[] { "rank", "satellite", "catalog_number", "verdict", "score", "sentence", "travel" }.Select(Named),
        .. new[] { "rise", "top", "set" }.SelectMany(name => new[] { "utc", "local", "azimuth_deg", "compass_deg", "elevation_deg", "over_skyline_deg", "light_below", "tune_hz" }.Select(of => Named($"{name}_{of}"))),
        .. new[]
        {
            "duration_s", "receivable_s", "margin_db", "margin_uncertainty_db", "nudges", "light", "carrier_hz", "service",
            "sun_separation_deg", "sun_near", "moon_separation_deg", "moon_near", "along_track_up_to_s",
            "recording_bytes", "free_bytes", "recording_fits", "take_from_utc", "take_to_utc", "take_received_s", "take_lost_s", "advice",
        }.Select(Named),
    ];

    /// <summary>Their values.</summary>
    public static Cell[] Of(EveningPass pass, Evening evening, RecordingNeed need, WallTime clock)
    {
        PassVerdict verdict = pass.Verdict;
        SharedDish? share = evening.ShareOf(pass);
        DishTurn[] turns = share is null ? [] : [.. share.TurnsOf(pass)];
        return
        [
            Cell.Of(pass.Number), Cell.Of(pass.Satellite), Cell.Of(pass.Planned.Elements.CatalogNumber),
            Cell.Of(verdict.Word.ToString().ToLowerInvariant()), Cell.Of(verdict.Score, 1), Cell.Of(verdict.Sentence), Cell.Of(verdict.Travel),
            .. Moment(pass.Rise, clock), .. Moment(pass.Top, clock), .. Moment(pass.Set, clock),
            Cell.Of(pass.Duration.TotalSeconds, 1), Cell.Of(verdict.Receivable.TotalSeconds, 1),
            Cell.Of(verdict.MarginAtCulmination.Value, 2), Cell.Of(verdict.MarginUncertainty.Value, 1), Cell.Of(verdict.Nudges),
            Cell.Of(VerdictCells.LightOf(verdict.Light)), Cell.Of(pass.Planned.Link.Carrier.Hertz, 0), Cell.Of(pass.Planned.Link.Service.Name),
            Cell.Of(verdict.Sun?.Separation.Degrees, 2), Cell.Of(verdict.SunNear), Cell.Of(verdict.Moon?.Separation.Degrees, 2), Cell.Of(verdict.MoonNear),
            Cell.Of(verdict.ElementAge.HighSeconds, 2),
            Cell.Of(need.For(pass.Duration), 0), Cell.Of(need.FreeBytes, 0), need.Fits(pass.Duration) is { } fits ? Cell.Of(fits) : Cell.None,
            turns is [var first, ..] ? Cell.Of(first.Shift.FromUtc, 3) : Cell.None, turns is [.., var last] ? Cell.Of(last.Shift.ToUtc, 3) : Cell.None,
            Cell.Of(share is null ? null : turns.Sum(turn => turn.Shift.Received.TotalSeconds), 0), Cell.Of(share?.LostOf(pass).TotalSeconds, 0), Cell.Of(share?.Words(clock)),
        ];
    }

    private static IEnumerable<Cell> Moment(EveningMoment moment, WallTime clock) =>
    [
        Cell.Of(moment.Utc, 3), Cell.Of(clock.At(moment.Utc).ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture)),
        Degrees(moment.Azimuth), Degrees(moment.Compass), Degrees(moment.Elevation), Cell.Of(moment.OverSkyline?.Degrees, 4),
        Cell.Of(GroundLights.Word(moment.Below)), Cell.Of(moment.Tuned.Hertz, 0),
    ];

    private static Cell Degrees(Angle angle) => Cell.Of(angle.Degrees, 4);

    private static OutputColumn Named(string name) => new(name, null, 0);
}
