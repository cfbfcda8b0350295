using Cockpit.Core.Aim;
using Cockpit.Core.Link;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;

namespace Cockpit.Settings;

/// <summary>What a person can set, with the defaults: the options of a command change what they name, all else stays.</summary>
/// <remarks>
/// Each default stands once, with the thing it belongs to (dish and carrier with the link, the elevation with the search); this record only
/// gathers them, so that a second source of settings needs one place to fill.
/// </remarks>
public sealed record CockpitSettings
{
    /// <summary>Lead of a nudge for a practised hand.</summary>
    public static readonly TimeSpan PractisedLead = TimeSpan.FromSeconds(1.0);

    /// <summary>What the plan does where the satellite passes the sun; a session that does not say so follows the satellite, as all did once.</summary>
    public const SunRule UsualSun = SunRule.Skip;

    /// <summary>Nothing is set.</summary>
    public static CockpitSettings Usual { get; } = new();

    /// <summary>Dish, amplifier, carrier and service.</summary>
    public LinkModel Link { get; init; } = new();

    /// <summary>A pass counts from this elevation on.</summary>
    public Angle MinimumElevation { get; init; } = PassSearch.UsualElevation;

    /// <summary>How long before the ideal moment a nudge is called.</summary>
    public TimeSpan CueLead { get; init; } = SessionSettings.UsualCueLead;

    /// <summary>Folder of all sessions.</summary>
    public string SessionsFolder { get; init; } = "sessions";

    /// <summary>Where the cues are heard.</summary>
    public SoundChoice Sound { get; init; } = new(SoundPlace.Auto);

    /// <summary>Theme of the screen.</summary>
    public string Theme { get; init; } = new ScreenOptions().Theme;
}
