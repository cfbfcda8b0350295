namespace Cockpit.Core.Orbit.Theory;

/// <summary>The mean elements at epoch as the theory takes them: angles in radians, frame TEME of the epoch.</summary>
/// <param name="RevolutionsPerDay">Mean motion as published (Kozai), revolutions a day.</param>
/// <param name="Eccentricity">Eccentricity, 0 to below 1.</param>
/// <param name="Inclination">Inclination, rad.</param>
/// <param name="Node">Right ascension of the ascending node, rad.</param>
/// <param name="ArgumentOfPerigee">Argument of perigee, rad.</param>
/// <param name="MeanAnomaly">Mean anomaly, rad.</param>
/// <param name="BStar">Drag term B*, per earth radius.</param>
internal readonly record struct EpochElements(
    double RevolutionsPerDay,
    double Eccentricity,
    double Inclination,
    double Node,
    double ArgumentOfPerigee,
    double MeanAnomaly,
    double BStar);
