using Cockpit.Core.Units;

namespace Cockpit.Core.Geo;

/// <summary>A place on the earth, geodetic, WGS 84.</summary>
/// <param name="Latitude">North positive, [-90°, 90°].</param>
/// <param name="Longitude">East positive, [-180°, 180°].</param>
/// <param name="HeightMetres">Above the WGS 84 ellipsoid, metres.</param>
public readonly record struct Site(Angle Latitude, Angle Longitude, double HeightMetres);
