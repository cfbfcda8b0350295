using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>What a pointing sensor says, as it says it: its own errors are in it.</summary>
/// <param name="Azimuth">True, as far as its north is known; null where it tells none, or not now.</param>
/// <param name="Elevation">Null where it tells none, or not now.</param>
/// <param name="Roll">Clockwise as seen from behind; null where it tells none.</param>
/// <param name="North">What its azimuth was counted from.</param>
/// <param name="Age">Real time since its last sample.</param>
/// <param name="PerSecond">Samples a second of late.</param>
/// <param name="Bias">How far its azimuth was found to be off where it points now; null while nothing has told, or it tells none.</param>
/// <param name="Doubt">How far what it says may be off after that is taken off, one standard deviation across the axis; of the height where it tells no azimuth.</param>
/// <param name="State">How it stands with it.</param>
/// <param name="Note">What changed with this event, one sentence; null when nothing did.</param>
public sealed record SensorNow(Angle? Azimuth, Angle? Elevation, Angle? Roll, SensorNorth North, TimeSpan Age, double PerSecond, Angle? Bias, Angle Doubt, SensorState State, string? Note)
{
    /// <summary>A sample that is older says nothing of now: a hand moves the dish by degrees in that time.</summary>
    public static readonly TimeSpan Fresh = TimeSpan.FromSeconds(1);

    /// <summary>Whether the last sample speaks of now.</summary>
    public bool IsFresh => Age <= Fresh;

    /// <summary>Whether it tells the elevation alone, as an inclinometer does.</summary>
    public bool IsInclinometer => Azimuth is null && Elevation is not null;
}
