namespace Cockpit.Core.Orbit.Theory;

/// <summary>Mean elements at one instant: earth radii, radians, rad/min; angles not wrapped.</summary>
internal struct MeanElements
{
    internal double SemiMajorAxis;
    internal double MeanMotion;
    internal double Eccentricity;
    internal double Inclination;
    internal double Node;
    internal double ArgumentOfPerigee;
    internal double MeanAnomaly;
}
