using System.Globalization;
using System.Text;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Reports;

/// <summary>The head of a set-up sheet, and what happens when.</summary>
internal static class SheetParts
{
    /// <summary>Where, with what, in which time.</summary>
    public static string When(SheetFacts facts) => Text(
        $"<p class=\"when\">{Place(facts)}, dish {facts.DishMetres:0.0#} m, beam {facts.BeamWidth.Degrees:0}°. Local time {Svg.Safe(facts.Clock.Zone?.Id ?? "UTC")}. Verdict: {Svg.Safe(facts.Pass.Verdict.Brief)}; {facts.Pass.Verdict.LightWords}.</p>\n");

    /// <summary>Rise, top and set side by side.</summary>
    public static string Moments(SheetFacts facts)
    {
        EveningPass pass = facts.Pass;
        var text = new StringBuilder("<section>\n<h2>The pass</h2>\n<table class=\"moments\">\n<thead><tr><th></th><th>rise</th><th>top</th><th>set</th></tr></thead>\n<tbody>\n");
        void Row(string name, Func<EveningMoment, string> of) => text.Append(Text($"<tr><th scope=\"row\">{name}</th><td>{of(pass.Rise)}</td><td>{of(pass.Top)}</td><td>{of(pass.Set)}</td></tr>\n"));
        Row("local time", moment => facts.Clock.SecondWithOffset(moment.Utc));
        Row("UTC", moment => new WallTime(null).Second(moment.Utc));
        Row("azimuth", moment => Whole(moment.Azimuth));
        Row("by compass", moment => Whole(moment.Compass));
        Row("elevation", moment => Text($"{moment.Elevation.Degrees:0}°"));
        if (pass.Top.OverSkyline is not null)
        {
            Row("over the skyline", moment => Text($"{moment.OverSkyline?.Degrees:0;-0;0}°"));
        }

        Row("tune to, MHz", moment => Text($"{moment.Tuned.Hertz / 1e6:0.0000}"));
        Row("ground below", moment => GroundLights.Word(moment.Below));
        return text.Append("</tbody>\n</table>\n</section>\n").ToString();
    }

    /// <summary>What comes of it: reception, sun and moon, and who else wants the dish.</summary>
    public static string Outlook(SheetFacts facts) => $"<section>\n<h2>What it brings</h2>\n{Remarks(facts)}</section>\n";

    /// <summary>The plot with its legend.</summary>
    public static string Sky(SheetFacts facts) => PageParts.Figure(
        "Sky",
        PageParts.Key("sat", "satellite") + PageParts.Key("hold", "holds") + (facts.Evening.Question.Horizon is null ? "" : PageParts.Key("skyline", "skyline")) + "north is up, the middle is overhead",
        SheetSky.Of(facts),
        "");

    /// <summary>Whole degrees of azimuth, three digits.</summary>
    public static string Whole(Angle azimuth) => (Math.Round(azimuth.WrappedToTurn().Degrees) % 360.0).ToString("000", CultureInfo.InvariantCulture) + "°";

    private static string Remarks(SheetFacts facts)
    {
        PassVerdict verdict = facts.Pass.Verdict;
        var words = new StringBuilder();
        words.Append(Text($"<p>Tune {facts.Pass.Planned.Link.Carrier.Hertz / 1e6:0.0##} MHz before the rise{Others(facts.Pass.Planned)}. The dish receives {verdict.Receivable.TotalMinutes:0.0} of {facts.Pass.Duration.TotalMinutes:0.0} minutes, {verdict.MarginAtCulmination.Value:+0.0;-0.0} dB over the need at the top. "));
        words.Append(Text($"{Body("Sun", verdict.Sun, facts.Clock)}, {Body("moon", verdict.Moon, facts.Clock)}.</p>\n"));
        return facts.Evening.ShareOf(facts.Pass) is { } share ? words.Append(Text($"<p><strong>{Svg.Safe(share.WordsOf(facts.Pass, facts.Clock))}</strong></p>\n")).ToString() : words.ToString();
    }

    private static string Others(PlannedPass planned)
    {
        string more = string.Join(", ", planned.Downlinks.Skip(1).Select(other => Text($"{other.Carrier.Hertz / 1e6:0.0##}")));
        return more.Length == 0 ? "" : $" (it also sends on {more} MHz)";
    }

    private static string Body(string name, BodyNearness? body, WallTime clock) => body is { } there
        ? Text($"{name} {there.Separation.Degrees:0}° from the satellite at {clock.Minute(there.Utc)}")
        : name + " down";

    private static string Place(SheetFacts facts)
    {
        Core.Geo.Site site = facts.Evening.Question.Station;
        return Text($"{Math.Abs(site.Latitude.Degrees):0.0000} {(site.Latitude.Degrees < 0 ? "south" : "north")}, {Math.Abs(site.Longitude.Degrees):0.0000} {(site.Longitude.Degrees < 0 ? "west" : "east")}");
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
