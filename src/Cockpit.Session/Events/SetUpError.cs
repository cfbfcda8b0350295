using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>How far the dish may stand off where it was set up, one standard deviation each.</summary>
/// <param name="Azimuth">Of azimuth: a few degrees by a landmark or the sun's shadow, five to ten by a compass (common practice, no source).</param>
/// <param name="Elevation">Of elevation: a degree by an inclinometer on the dish.</param>
public readonly record struct SetUpError(Angle Azimuth, Angle Elevation);
