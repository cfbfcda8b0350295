using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;

namespace Cockpit.Reports;

/// <summary>The sky of the pass: way, holds, skyline, sun, moon, and the shadow at set-up.</summary>
internal static class SheetSky
{
    private const int NumberedHold = 5;

    /// <summary>The plot: north up, east right, the zenith in the middle.</summary>
    public static string Of(SheetFacts facts)
    {
        var plot = new SkyChart(400.0, 400.0, "Sky plot: way of the satellite with the holds, skyline, sun, moon and shadow", Words(facts));
        if (facts.Evening.Question.Horizon is { } skyline)
        {
            plot.Skyline(skyline);
        }

        plot.Rings();
        foreach (Hold hold in facts.Holds)
        {
            SkyPlace place = hold.Flown();
            plot.Circle(place.Azimuth, place.Elevation, 0.5 * facts.BeamWidth, hold.Skip is null ? "hold" : "holdaside");
        }

        plot.Path(facts.Path.Select(moment => (moment.Look.Azimuth, moment.Look.Elevation)), "sat");
        Bodies(facts, plot);
        Times(facts, plot);
        Numbers(facts, plot);
        return plot.ToString();
    }

    private static string Words(SheetFacts facts) => string.Create(
        CultureInfo.InvariantCulture,
        $"The satellite rises at azimuth {facts.Pass.Rise.Azimuth.Degrees:0}°, is {facts.Pass.Top.Elevation.Degrees:0}° high at azimuth {facts.Pass.Top.Azimuth.Degrees:0}° and sets at azimuth {facts.Pass.Set.Azimuth.Degrees:0}°; the dish stands in {facts.Holds.Length} directions.");

    private static void Bodies(SheetFacts facts, SkyChart plot)
    {
        if (facts.AtSetUp.Shadow is { } shadow)
        {
            plot.Ray(shadow, "shadow", "shadow " + facts.Clock.Minute(facts.AtSetUp.Utc));
        }

        if (facts.AtTop.Sun is { Elevation.Degrees: > -1.0 } sun)
        {
            plot.Mark(sun.Azimuth, sun.Elevation, 8.0, "sun", "sun");
        }

        if (facts.AtTop.Moon is { Elevation.Degrees: > 0.0 } moon)
        {
            plot.Mark(moon.Azimuth, moon.Elevation, 7.0, "moon", "moon");
        }
    }

    private static void Times(SheetFacts facts, SkyChart plot)
    {
        Pass pass = facts.Pass.Planned.Pass;
        foreach (PassMoment moment in (PassMoment[])[pass.Aos, pass.Tca, pass.Los])
        {
            plot.Mark(moment.Look.Azimuth, moment.Look.Elevation, 2.6, "tick", facts.Clock.Second(moment.Utc));
        }
    }

    private static void Numbers(SheetFacts facts, SkyChart plot)
    {
        foreach (Hold hold in facts.Holds.Where(hold => hold.Number % NumberedHold == 0))
        {
            SkyPlace place = hold.Flown();
            plot.Name(place.Azimuth, place.Elevation, hold.Number.ToString(CultureInfo.InvariantCulture));
        }
    }
}
