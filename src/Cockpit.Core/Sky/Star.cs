using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>A star as a catalogue gives it: its place for J2000 (ICRS) and how it moves.</summary>
/// <param name="RightAscension">[0°, 360°).</param>
/// <param name="Declination">North positive.</param>
/// <param name="MotionEast">Proper motion in right ascension times the cosine of the declination, angle a Julian year.</param>
/// <param name="MotionNorth">Proper motion in declination, angle a Julian year.</param>
public readonly record struct Star(Angle RightAscension, Angle Declination, Angle MotionEast, Angle MotionNorth)
{
    /// <summary>The pole star, alpha Ursae Minoris: within 0.7° of the pole in this century's first half.</summary>
    /// <remarks>Source: The Hipparcos and Tycho Catalogues, ESA SP-1200 (1997), HIP 11767, place for J2000.</remarks>
    public static Star Polaris { get; } = new(
        Angle.FromDegrees(15.0 * (2.0 + (31.0 / 60.0) + (49.09456 / 3600.0))),
        Angle.FromDegrees(89.0 + (15.0 / 60.0) + (50.7923 / 3600.0)),
        Angle.FromDegrees(0.04448 / 3600.0),
        Angle.FromDegrees(-0.01185 / 3600.0));
}
