using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>Where the earth is on its way around the sun.</summary>
/// <param name="Longitude">Heliocentric ecliptic longitude, mean equinox of date, [0°, 360°).</param>
/// <param name="Latitude">Heliocentric ecliptic latitude.</param>
/// <param name="DistanceAu">Distance to the sun, astronomical units.</param>
public readonly record struct EarthOrbit(Angle Longitude, Angle Latitude, double DistanceAu)
{
    /// <summary>The earth at a moment.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.</param>
    /// <remarks>Error below 1″ between 1950 and 2050. Source: NREL/TP-560-34302, section 3.2.</remarks>
    public static EarthOrbit At(double centuries)
    {
        double t = centuries / 10.0;
        double longitude = Sum(EarthOrbitTerms.Longitude0, t) + (t * (Sum(EarthOrbitTerms.Longitude1, t)
            + (t * (Sum(EarthOrbitTerms.Longitude2, t) + (t * (Sum(EarthOrbitTerms.Longitude3, t)
            + (t * (Sum(EarthOrbitTerms.Longitude4, t) + (t * Sum(EarthOrbitTerms.Longitude5, t))))))))));
        double latitude = Sum(EarthOrbitTerms.Latitude0, t) + (t * Sum(EarthOrbitTerms.Latitude1, t));
        double radius = Sum(EarthOrbitTerms.Radius0, t) + (t * (Sum(EarthOrbitTerms.Radius1, t)
            + (t * (Sum(EarthOrbitTerms.Radius2, t) + (t * (Sum(EarthOrbitTerms.Radius3, t) + (t * Sum(EarthOrbitTerms.Radius4, t))))))));
        return new EarthOrbit(Angle.FromRadians(longitude).WrappedToTurn(), Angle.FromRadians(latitude), radius);
    }

    private static double Sum(ReadOnlySpan<double> terms, double millennia)
    {
        double sum = 0.0;
        for (int i = 0; i < terms.Length; i += 3)
        {
            sum += terms[i] * Math.Cos(terms[i + 1] + (terms[i + 2] * millennia));
        }

        return sum * 1e-8;
    }
}
