using System.Collections.Immutable;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>The demo: an invented satellite over an invented station, a good high pass that is already running.</summary>
/// <param name="Settings">What the session is about; goes into its first event.</param>
/// <param name="StartUtc">Where the session's clock starts: 75 s after rise.</param>
/// <param name="Obstructions">What stands in the way of the signal, and when.</param>
public sealed record Demo(SessionSettings Settings, DateTimeOffset StartUtc, ImmutableArray<Obstruction> Obstructions)
{
    private const string Lines =
        "PETREL 2\n"
        + "1 99102U 26910A   26329.13888889  .00000061  00000-0  41000-4 0  9990\n"
        + "2 99102  98.7420  41.0000 0010213  84.3100 275.9300 14.19552000 45216";

    /// <summary>The elements of its satellite.</summary>
    public static ElementSet Elements { get; } = ElementSets.Read("demo", new StringReader(Lines)).Sets[0];

    // Rise at 10:35:40, 72 degrees in the west at 10:42:06, set at 10:48:29.
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 36, 55, TimeSpan.Zero);

    /// <summary>The demo of a seed.</summary>
    /// <param name="seed">Seed of fading, wind, noise and hand.</param>
    /// <param name="programVersion">Version of the program.</param>
    public static Demo Of(ulong seed, string programVersion)
    {
        SessionSettings settings = new()
        {
            ProgramVersion = programVersion,
            Kind = SessionKind.Demo,
            StationName = "Hazel Ridge",
            Station = new Site(Angle.FromDegrees(50.2), Angle.FromDegrees(10.4), 380.0),
            SatelliteName = "PETREL 2",
            Elements = Elements,
            CueLead = TimeSpan.FromSeconds(1.0),
            Seed = seed,
            Feeds = [FeedSettings.Signal],
        };

        // Someone walks through the beam after half a minute, a tree stands in the way later.
        ImmutableArray<Obstruction> obstructions =
        [
            new(Start.AddSeconds(32), TimeSpan.FromSeconds(5), new Decibels(12)),
            new(Start.AddSeconds(150), TimeSpan.FromSeconds(8), new Decibels(7)),
        ];
        return new Demo(settings, Start, obstructions);
    }

    /// <summary>The simulation that belongs to it, with a practised hand; a new one starts the pass again.</summary>
    public SimulatedPass Begin() =>
        new(new SatelliteTrack(new Sgp4(Elements), Settings.Station), Settings, HandSkill.Practised, Obstructions);
}
