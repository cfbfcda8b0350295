using System.Runtime.CompilerServices;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>Where the moon is, seen from the centre of the earth.</summary>
/// <param name="Longitude">Ecliptic longitude, mean equinox of date, light time in it, nutation not, [0°, 360°).</param>
/// <param name="Latitude">Ecliptic latitude.</param>
/// <param name="DistanceKm">Distance of the centres, km.</param>
public readonly record struct MoonOrbit(Angle Longitude, Angle Latitude, double DistanceKm)
{
    private const double MeanDistanceKm = 385000.56;

    /// <summary>The moon at a moment.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.</param>
    /// <remarks>Error about 10″ in longitude and 4″ in latitude. Source: J. Meeus, Astronomical Algorithms, 2nd ed., chapter 47.</remarks>
    public static MoonOrbit At(double centuries)
    {
        double t = centuries;
        double mean = Degrees(218.3164477 + (t * (481267.88123421 + (t * (-0.0015786 + (t * ((1.0 / 538841.0) - (t / 65194000.0))))))));
        ReadOnlySpan<double> arguments =
        [
            Degrees(297.8501921 + (t * (445267.1114034 + (t * (-0.0018819 + (t * ((1.0 / 545868.0) - (t / 113065000.0)))))))),
            Degrees(357.5291092 + (t * (35999.0502909 + (t * (-0.0001536 + (t / 24490000.0)))))),
            Degrees(134.9633964 + (t * (477198.8675055 + (t * (0.0087414 + (t * ((1.0 / 69699.0) - (t / 14712000.0)))))))),
            Degrees(93.2720950 + (t * (483202.0175233 + (t * (-0.0036539 + (t * ((-1.0 / 3526000.0) + (t / 863310000.0)))))))),
        ];
        double anomaly = arguments[2];
        double node = arguments[3];
        double venus = Degrees(119.75 + (131.849 * t));
        double jupiter = Degrees(53.09 + (479264.290 * t));
        double flattening = Degrees(313.45 + (481266.484 * t));

        // The eccentricity of the earth's orbit shrinks: terms with M carry this factor once or twice.
        double eccentricity = 1.0 - (t * (0.002516 + (0.0000074 * t)));
        double longitude = (3958.0 * Math.Sin(venus)) + (1962.0 * Math.Sin(mean - node)) + (318.0 * Math.Sin(jupiter));
        double latitude = (-2235.0 * Math.Sin(mean)) + (382.0 * Math.Sin(flattening)) + (175.0 * Math.Sin(venus - node))
            + (175.0 * Math.Sin(venus + node)) + (127.0 * Math.Sin(mean - anomaly)) - (115.0 * Math.Sin(mean + anomaly));
        double distance = 0.0;

        ReadOnlySpan<int> table = MoonTerms.LongitudeAndDistance;
        for (int at = 0; at < table.Length; at += MoonTerms.LongitudeWidth)
        {
            (double argument, double weight) = Term(table.Slice(at, 4), arguments, eccentricity);
            longitude += table[at + 4] * weight * Math.Sin(argument);
            distance += table[at + 5] * weight * Math.Cos(argument);
        }

        table = MoonTerms.Latitude;
        for (int at = 0; at < table.Length; at += MoonTerms.LatitudeWidth)
        {
            (double argument, double weight) = Term(table.Slice(at, 4), arguments, eccentricity);
            latitude += table[at + 4] * weight * Math.Sin(argument);
        }

        return new MoonOrbit(
            (Angle.FromRadians(mean) + Angle.FromDegrees(longitude * 1e-6)).WrappedToTurn(),
            Angle.FromDegrees(latitude * 1e-6),
            MeanDistanceKm + (distance * 1e-3));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private static (double Argument, double Weight) Term(ReadOnlySpan<int> multiples, ReadOnlySpan<double> arguments, double eccentricity)
    {
        double argument = 0.0;
        for (int i = 0; i < arguments.Length; i++)
        {
            argument += multiples[i] * arguments[i];
        }

        double weight = Math.Abs(multiples[1]) switch { 0 => 1.0, 1 => eccentricity, _ => eccentricity * eccentricity };
        return (argument, weight);
    }

    private static double Degrees(double degrees) => Angle.FromDegrees(degrees).Radians;
}
