using System.Text;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Reports;

/// <summary>How to find north while the tripod is set up.</summary>
internal static class SheetNorth
{
    private static readonly TimeSpan Later = TimeSpan.FromMinutes(10);

    /// <summary>The section.</summary>
    public static string Of(SheetFacts facts)
    {
        Bearings then = facts.AtSetUp;
        var text = new StringBuilder(Text($"<section>\n<h2>Set up by {facts.Clock.Minute(facts.Pass.Rise.Utc - SheetFacts.SetUpBefore)}: north</h2>\n"));
        SkyPlace first = facts.First;
        text.Append(Text($"<p>Point the dish to <strong>azimuth {SheetParts.Whole(first.Azimuth)}</strong> ({SheetParts.Whole(facts.Compass(first.Azimuth))} by compass), <strong>elevation {first.Elevation.Degrees:0}°</strong>: the first hold.</p>\n"));
        foreach (string way in Ways(facts, then))
        {
            text.Append("<p>").Append(way).Append("</p>\n");
        }

        double declination = facts.Evening.Field.Declination.Degrees;
        text.Append(Text($"<p>Compass: it reads {Math.Abs(declination):0.0}° {(declination < 0 ? "more" : "less")} than the true azimuth. Read it two steps away from tripod, dish and car; steel turns it.</p>\n"));
        return text.Append("</section>\n").ToString();
    }

    private static IEnumerable<string> Ways(SheetFacts facts, Bearings then)
    {
        if (then is { Shadow: { } shadow, ShadowLength: { } length })
        {
            Bearings later = Bearings.At(then.Site, then.Utc + Later);
            string next = later.Shadow is { } turned ? Text($", at {facts.Clock.Minute(later.Utc)} to {turned.Degrees:0.0}°") : "";
            yield return Text($"Shadow of an upright stick: at {facts.Clock.Minute(then.Utc)} it points to <strong>{shadow.Degrees:0.0}°</strong> ({SheetParts.Whole(facts.Compass(shadow))} by compass){next}; it is {length:0.0} times as long as the stick. Never look at the sun itself.");
        }

        if (then.PolarisShows)
        {
            yield return Text($"Pole star: azimuth <strong>{then.Polaris.Azimuth.WrappedToHalfTurn().Degrees:+0.0;-0.0;0.0}°</strong> from true north, {then.Polaris.Elevation.Degrees:0}° high. A plumb line held before it shows north on the ground.");
        }

        if (then.Moon.Elevation > Angle.FromDegrees(3))
        {
            yield return Text($"Moon at {facts.Clock.Minute(then.Utc)}: azimuth <strong>{then.Moon.Azimuth.Degrees:0.0}°</strong> ({SheetParts.Whole(facts.Compass(then.Moon.Azimuth))} by compass), {then.Moon.Elevation.Degrees:0}° high.");
        }

        if (then.Shadow is null && !then.PolarisShows && then.Moon.Elevation <= Angle.FromDegrees(3))
        {
            yield return "Neither a shadow nor the pole star nor the moon helps then: take a landmark (cockpit bearing --to LAT,LON) or the compass.";
        }
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
