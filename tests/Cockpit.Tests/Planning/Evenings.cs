using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
using Cockpit.Reports;

namespace Cockpit.Tests.Planning;

/// <summary>Invented satellites and evenings of them.</summary>
internal static class Evenings
{
    public static readonly Site Station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);

    public static readonly WallTime Berlin = new(TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"));

    /// <summary>A low sun-synchronous orbit.</summary>
    public static ElementSet Orbit(string name, int number, double meanAnomaly, DateTimeOffset epoch, double rightAscension = 30.0) => new()
    {
        Name = name,
        CatalogNumber = number,
        Epoch = JulianDate.FromUtc(epoch),
        Inclination = Angle.FromDegrees(98.6),
        RightAscension = Angle.FromDegrees(rightAscension),
        ArgumentOfPerigee = Angle.FromDegrees(90.0),
        MeanAnomaly = Angle.FromDegrees(meanAnomaly),
        Eccentricity = 0.001,
        MeanMotionRevPerDay = 14.2,
        BStar = 5e-5,
    };

    /// <summary>What comes in a span.</summary>
    public static Evening Of(DateTimeOffset from, TimeSpan span, HorizonMask? skyline, double dishMetres, params ElementSet[] sets)
    {
        PassQuestion question = new(Station, from, from + span, Angle.FromDegrees(5), skyline, 0.0, Refraction: false);
        LinkModel usual = new();
        VerdictSettings settings = new() { Site = Station, Link = usual with { Carrier = Frequency.FromMegahertz(1701.3), Dish = usual.Dish with { DiameterMetres = dishMetres } } };
        Assert.True(PassPlanner.Find([.. sets.Select(set => new Sgp4(set))], question, settings, []).Try(out PassesAhead? ahead, out ParseError? error), error?.ToString());
        return Evening.Of(ahead, question, settings, 50, SharedDish.UsualTurn);
    }

    /// <summary>The sheet of a pass.</summary>
    public static SheetFacts Facts(Evening evening, EveningPass pass, Mount mount = Mount.PanTilt, SunRule sun = SunRule.Skip) =>
        SheetFacts.For(pass, evening, Berlin, (mount, sun), new RecordingNeed(12e6, 40_000_000_000, 1 << 29), "/home/you/recordings");
}
