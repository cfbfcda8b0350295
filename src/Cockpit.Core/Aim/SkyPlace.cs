using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>A direction.</summary>
/// <param name="Azimuth">True, from north through east.</param>
/// <param name="Elevation">Above the horizontal, [-90°, 90°].</param>
public readonly record struct SkyPlace(Angle Azimuth, Angle Elevation);
