using System.Text;
using Cockpit.Core.Verdicts;

namespace Cockpit.Reports;

/// <summary>What to look at before the pass, and what can hurt.</summary>
internal static class SheetLists
{
    private const double Giga = 1e9;

    /// <summary>The list to tick.</summary>
    public static string Checks(SheetFacts facts)
    {
        string carrier = Text($"{facts.Pass.Planned.Link.Carrier.Hertz / 1e6:0.0##}");
        string[] checks =
        [
            "Tripod: legs spread and locked, weights on it, head level, clamps smooth",
            "Cable: plugs tight, no pull on the feed, nobody trips over it",
            Disk(facts),
            Text($"Recorder: {carrier} MHz, name and folder right, a test of ten seconds recorded and looked at"),
            "Clock: right to a second (cockpit live --clock ntp://HOST tells)",
            "Sound: left is heard on the left, right on the right; loud enough, not louder",
            "Battery of the laptop, energy saving off, its lid and screen as in the dark",
            Text($"Dish: at azimuth {SheetParts.Whole(facts.First.Azimuth)}, elevation {facts.First.Elevation.Degrees:0}°, both clamps free to move"),
            "Amplifier: power last, when everything is plugged in",
            "Level: the noise is seen, and rises a little from sky to ground; no overload",
            Text($"Recording runs at {facts.Clock.Minute(facts.Pass.Rise.Utc - TimeSpan.FromMinutes(1))}, a minute before the rise"),
        ];
        var text = new StringBuilder("<section>\n<h2>Before the rise</h2>\n<ul class=\"checks\">\n");
        foreach (string check in checks)
        {
            text.Append("<li><label><input type=\"checkbox\">").Append(Svg.Safe(check)).Append("</label></li>\n");
        }

        return text.Append("</ul>\n</section>\n").ToString();
    }

    /// <summary>What can hurt at this pass; the most likely first.</summary>
    public static string Cautions(SheetFacts facts)
    {
        var text = new StringBuilder("<section>\n<h2>Take care</h2>\n<ul class=\"cautions\">\n");
        foreach (string caution in Named(facts))
        {
            text.Append("<li>").Append(Svg.Safe(caution)).Append("</li>\n");
        }

        return text.Append("</ul>\n</section>\n").ToString();
    }

    private static IEnumerable<string> Named(SheetFacts facts)
    {
        if (facts.AtTop.Sun.Elevation.Degrees > -1.0 || facts.AtSetUp.Sun.Elevation.Degrees > -1.0)
        {
            yield return "Sun: never look along the dish or at the sun. A shiny dish has a hot focus that burns hands, eyes and the feed: matt paint, or a cover while it stands.";
        }

        if (GroundLights.Of(facts.AtTop.Sun.Elevation) != GroundLight.Day || GroundLights.Of(facts.AtSetUp.Sun.Elevation) != GroundLight.Day)
        {
            yield return "Dark: walk the place in the light of a lamp first; mark legs, cable and holes. A lamp on the head keeps both hands free.";
        }

        yield return "Power lines: keep dish, mast and cable farther from them than they can fall. If one could touch, choose another place.";
        yield return "Lightning: at the first thunder pull the cable and leave the dish. It is the highest thing around.";
        yield return "Wind: hold the dish or lay it down; never leave it standing alone.";
        yield return "Amplifier: its power comes through the cable. Check polarity and voltage first, plug and unplug with the power off.";
        yield return "Ears: begin with the sound low, above all with earphones; keep one ear for what comes behind you.";
        yield return "Roofs, roads, other people's ground: ask first, and do not go alone. Local rules and those of a licence go before this sheet; what needs a trained person is left to one.";
    }

    private static string Disk(SheetFacts facts)
    {
        string free = facts.Need.FreeBytes is { } bytes ? Text($"{bytes / Giga:0.0} GB free in {facts.Folder}") : $"look what is free in {facts.Folder}";
        return facts.Need.For(facts.Pass.Duration) is not { } need ? $"Disk: {free}; enough for the recording?"
            : Text($"Disk: {need / Giga:0.0} GB needed, {free}{(facts.Need.Fits(facts.Pass.Duration) == false ? ": NOT ENOUGH, make room" : "")}");
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
