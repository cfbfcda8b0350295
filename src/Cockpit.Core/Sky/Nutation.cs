using System.Runtime.CompilerServices;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>The nodding of the earth's axis, and its tilt.</summary>
/// <param name="InLongitude">Δψ.</param>
/// <param name="InObliquity">Δε.</param>
/// <param name="MeanObliquity">ε₀, without nutation.</param>
public readonly record struct Nutation(Angle InLongitude, Angle InObliquity, Angle MeanObliquity)
{
    /// <summary>ε, the true obliquity of the ecliptic.</summary>
    public Angle TrueObliquity => MeanObliquity + InObliquity;

    /// <summary>The nutation at a moment.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.</param>
    /// <remarks>Error about 0.001″ against the IAU 1980 theory. Source: NREL/TP-560-34302, sections 3.4 and 3.5.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    public static Nutation At(double centuries)
    {
        double t = centuries;
        ReadOnlySpan<double> arguments =
        [
            Degrees(297.85036, 445267.111480, -0.0019142, 1.0 / 189474.0, t),
            Degrees(357.52772, 35999.050340, -0.0001603, -1.0 / 300000.0, t),
            Degrees(134.96298, 477198.867398, 0.0086972, 1.0 / 56250.0, t),
            Degrees(93.27191, 483202.017538, -0.0036825, 1.0 / 327270.0, t),
            Degrees(125.04452, -1934.136261, 0.0020708, 1.0 / 450000.0, t),
        ];

        double longitude = 0.0;
        double obliquity = 0.0;
        ReadOnlySpan<double> rows = NutationTerms.Rows;
        for (int at = 0; at < rows.Length; at += NutationTerms.Width)
        {
            ReadOnlySpan<double> row = rows.Slice(at, NutationTerms.Width);
            double argument = 0.0;
            for (int i = 0; i < arguments.Length; i++)
            {
                argument += row[i] * arguments[i];
            }

            longitude += (row[5] + (row[6] * t)) * Math.Sin(argument);
            obliquity += (row[7] + (row[8] * t)) * Math.Cos(argument);
        }

        return new Nutation(ArcSeconds(longitude * 1e-4), ArcSeconds(obliquity * 1e-4), ArcSeconds(MeanObliquityArcSeconds(t / 100.0)));
    }

    // J. Laskar, Astron. Astrophys. 157 (1986), 59; u in units of 10 000 Julian years.
    private static double MeanObliquityArcSeconds(double u) =>
        84381.448 + (u * (-4680.93 + (u * (-1.55 + (u * (1999.25 + (u * (-51.38 + (u * (-249.67 + (u * (-39.05
        + (u * (7.12 + (u * (27.87 + (u * (5.79 + (u * 2.45)))))))))))))))))));

    private static double Degrees(double a, double b, double c, double d, double t) =>
        Angle.FromDegrees(a + (t * (b + (t * (c + (t * d)))))).Radians;

    private static Angle ArcSeconds(double seconds) => Angle.FromDegrees(seconds / 3600.0);
}
