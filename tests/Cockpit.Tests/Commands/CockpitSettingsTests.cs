using Cockpit.Core.Geo;
using Cockpit.Core.Verdicts;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;

namespace Cockpit.Tests.Commands;

public sealed class CockpitSettingsTests
{
    // What passes judges, what live flies and what the demo shows is the same dish on the same carrier where nobody says otherwise.
    [Fact]
    public void Every_default_is_the_same_wherever_it_is_used()
    {
        CockpitSettings usual = CockpitSettings.Usual;
        SessionSettings session = new() { ProgramVersion = "", Kind = SessionKind.Live, StationName = "", Station = default(Site), SatelliteName = "" };
        SessionSettings demo = Demo.Of(1, "test").Settings;
        VerdictSettings verdicts = new() { Site = default };
        Assert.Equal(usual.Link.Dish.DiameterMetres, session.DishDiameterMetres);
        Assert.Equal(usual.Link.Carrier, session.Downlink);
        Assert.Equal(usual.MinimumElevation, session.MinimumElevation);
        Assert.Equal(usual.CueLead, session.CueLead);
        Assert.Equal(verdicts.AllowedLoss, session.AllowedLoss);
        Assert.Equal(verdicts.Link, usual.Link);
        Assert.Equal((session.DishDiameterMetres, session.Downlink), (demo.DishDiameterMetres, demo.Downlink));
        Assert.Equal((0.8, 1.7e9, 5.0), (session.DishDiameterMetres, session.Downlink.Hertz, Math.Round(session.MinimumElevation.Degrees, 9)));
    }
}
