using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>How the earth's axis has turned among the stars since J2000, apart from its nodding.</summary>
/// <param name="Zeta">ζA, first turn about the pole of J2000.</param>
/// <param name="Z">zA, last turn about the pole of date.</param>
/// <param name="Theta">θA, the angle between the poles.</param>
public readonly record struct Precession(Angle Zeta, Angle Z, Angle Theta)
{
    /// <summary>The precession to a moment.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.</param>
    /// <remarks>IAU 2006. Source: N. Capitaine, P. Wallace, J. Chapront, Astron. Astrophys. 412 (2003), 567, eq. 40.</remarks>
    public static Precession At(double centuries)
    {
        double t = centuries;
        return new Precession(
            ArcSeconds(2.650545 + (t * (2306.083227 + (t * (0.2988499 + (t * (0.01801828 - (t * (5.971e-6 + (t * 3.173e-7)))))))))),
            ArcSeconds(-2.650545 + (t * (2306.077181 + (t * (1.0927348 + (t * (0.01826837 - (t * (28.596e-6 + (t * 2.904e-7)))))))))),
            ArcSeconds(t * (2004.191903 - (t * (0.4294934 + (t * (0.04182264 + (t * (7.089e-6 + (t * 1.274e-7))))))))));
    }

    private static Angle ArcSeconds(double seconds) => Angle.FromDegrees(seconds / 3600.0);
}
