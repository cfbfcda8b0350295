using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>The session began; everything that was configured is in it. Always the first event.</summary>
/// <param name="Settings">Station, satellite, dish and choices.</param>
public sealed record SessionOpened(SessionSettings Settings) : SessionEvent;

/// <summary>The session ended cleanly.</summary>
/// <param name="Reason">Why, in words.</param>
public sealed record SessionClosed(string Reason) : SessionEvent;

/// <summary>The clock ticked; ten a second of real time.</summary>
public sealed record Ticked : SessionEvent;

/// <summary>The offset of session time to UTC was changed; the monotonic time goes on.</summary>
/// <param name="Change">What is added to UTC from this event on.</param>
/// <param name="Reason">Why, in words.</param>
public sealed record ClockCorrected(TimeSpan Change, string Reason) : SessionEvent;

/// <summary>This computer's clock was compared with a better one; nothing is changed by that.</summary>
/// <param name="Against">The better one, for people.</param>
/// <param name="Behind">What is to be added to this computer's clock; positive = it is behind. Null where there was no answer.</param>
/// <param name="Doubt">How far that may be off.</param>
/// <param name="Trouble">Why there was no answer, for people; null where there was one.</param>
public sealed record ClockCompared(string Against, TimeSpan? Behind, TimeSpan Doubt, string? Trouble) : SessionEvent;

/// <summary>What the session is about; fixed from the first event on.</summary>
public sealed record SessionSettings
{
    /// <summary>Lead of a nudge for a hand without practice.</summary>
    public static readonly TimeSpan UsualCueLead = TimeSpan.FromSeconds(1.6);

    private static readonly LinkModel UsualLink = new();

    /// <summary>Version of the program that wrote the session.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>What kind of session.</summary>
    public required SessionKind Kind { get; init; }

    /// <summary>Name of the station, for people.</summary>
    public required string StationName { get; init; }

    /// <summary>Where the dish stands.</summary>
    public required Site Station { get; init; }

    /// <summary>Name of the satellite, for people.</summary>
    public required string SatelliteName { get; init; }

    /// <summary>The element set of the satellite; null where the satellite is made up.</summary>
    public ElementSet? Elements { get; init; }

    /// <summary>Where the satellite was, in place of elements and station; null in a session that nobody took the place out of.</summary>
    public TabulatedSky? Sky { get; init; }

    /// <summary>Diameter of the dish, metres.</summary>
    public double DishDiameterMetres { get; init; } = UsualLink.Dish.DiameterMetres;

    /// <summary>Magnetic declination at the station, east positive: true = magnetic + declination; null when not given.</summary>
    public Angle? MagneticDeclination { get; init; }

    /// <summary>Whether azimuths to set the dish to are shown large as a compass reads them; else from true north.</summary>
    public bool NorthByCompass { get; init; }

    /// <summary>Downlink carrier, Hz as sent.</summary>
    public Frequency Downlink { get; init; } = UsualLink.Carrier;

    /// <summary>A pass counts from this elevation on.</summary>
    public Angle MinimumElevation { get; init; } = PassSearch.UsualElevation;

    /// <summary>The pass is searched from this instant on, where the session begins before it, UTC; null: from its beginning.</summary>
    public DateTimeOffset? NotBefore { get; init; }

    /// <summary>What hides the sky at the station, azimuth true; empty = nothing. A pass begins at the first sight over it.</summary>
    public ImmutableArray<HorizonPoint> Skyline { get; init; } = [];

    /// <summary>What can be seen from the station and stands on the map; for pointing a sensor at.</summary>
    public ImmutableArray<Landmark> Landmarks { get; init; } = [];

    /// <summary>Name of the service that is received.</summary>
    public string Service { get; init; } = UsualLink.Service.Name;

    /// <summary>The skyline as a mask; null where nothing hides the sky.</summary>
    public HorizonMask? Horizon() => Skyline.IsDefaultOrEmpty ? null : new HorizonMask(Skyline);

    /// <summary>Pointing loss that a hold may cost at its edges.</summary>
    public Decibels AllowedLoss { get; init; } = HoldPlan.UsualLoss;

    /// <summary>How long before the ideal moment a nudge is called: 1.0 s practised, 1.6 s novice.</summary>
    public TimeSpan CueLead { get; init; } = UsualCueLead;

    /// <summary>What is known of this hand from earlier passes; null: as hands of that skill are.</summary>
    public HandSettings? Hand { get; init; }

    /// <summary>How well the dish was set up; null: as hands of that skill do by compass and inclinometer.</summary>
    public SetUpError? SetUpError { get; init; }

    /// <summary>In which axes the hand moves the dish.</summary>
    public Mount Mount { get; init; }

    /// <summary>Whether the tilt of the head can go beyond 90 degrees, over the top.</summary>
    public bool OverTheTop { get; init; }

    /// <summary>What the plan does where the satellite passes the sun.</summary>
    public SunRule Sun { get; init; }

    /// <summary>Whether the quiet heartbeat sounds while everything is well.</summary>
    public bool Heartbeat { get; init; } = true;

    /// <summary>Loudness at the start against the usual one, dB.</summary>
    public double VolumeDb { get; init; }

    /// <summary>Whether moves and alarms are spoken in words; what sounds next waits for them.</summary>
    public bool SpokenWords { get; init; }

    /// <summary>Rate of session time against real time; 1 in the field.</summary>
    public double Speed { get; init; } = 1.0;

    /// <summary>Seed of everything that is simulated; null in a live session.</summary>
    public ulong? Seed { get; init; }

    /// <summary>How this pass was chosen; null where it was named.</summary>
    public PassChoice? Choice { get; init; }

    /// <summary>What the program knows of how the session was set up; null in older sessions.</summary>
    public SetUpFacts? SetUp { get; init; }

    /// <summary>Whether the dish is simulated and turned by keys: a rehearsal.</summary>
    public bool KeysSteer { get; init; }

    /// <summary>The feeds that belong to the session, in the order shown.</summary>
    public ImmutableArray<FeedSettings> Feeds { get; init; } = [];
}
