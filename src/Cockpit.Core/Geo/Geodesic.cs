using Cockpit.Core.Units;
using MathNet.Numerics.Integration;

namespace Cockpit.Core.Geo;

/// <summary>The shortest line along the ellipsoid from one place to another.</summary>
/// <param name="Azimuth">Its true azimuth at the first place, from north through east, [0°, 360°).</param>
/// <param name="DistanceMetres">Its length, m; 0 where the places are one, and then the azimuth means nothing.</param>
/// <remarks>
/// Error against an independent solution: 1e-7° and 1e-4 m, nearly opposite places included; of exactly opposite places, where several lines are
/// equally short, one is given. Heights are not used. The equations are those of C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013), 43,
/// sections 2 and 4; the two integrals are taken by Gauss-Legendre quadrature instead of his series, and the azimuth is found by halving, which
/// cannot fail.
/// </remarks>
public readonly record struct Geodesic(Angle Azimuth, double DistanceMetres)
{
    /// <summary>The line between two places, WGS 84.</summary>
    /// <param name="from">The first place.</param>
    /// <param name="to">The second place.</param>
    public static Geodesic Between(Site from, Site to)
    {
        double eastward = (to.Longitude - from.Longitude).WrappedToHalfTurn().Radians;
        bool swapped = from.Latitude.Abs() < to.Latitude.Abs();
        (Angle first, Angle second) = swapped ? (to.Latitude, from.Latitude) : (from.Latitude, to.Latitude);
        double mirror = first.Radians < 0.0 ? 1.0 : -1.0;

        // Now the first place is in the south, nothing is farther from the equator, and the second lies east of it.
        var line = new CanonicalGeodesic(mirror * first.Radians, mirror * second.Radians);
        (double start, double end, double metres) = line.Solve(Math.Abs(eastward));
        double azimuth = swapped ? end : start;
        double side = eastward < 0.0 ? -1.0 : 1.0;
        double along = swapped ? -mirror : mirror;
        return new Geodesic(Angle.FromRadians(Math.Atan2(side * Math.Sin(azimuth), along * Math.Cos(azimuth))).WrappedToTurn(), metres);
    }
}

/// <summary>The line between latitudes φ1 ≤ 0 and φ1 ≤ φ2 ≤ -φ1; all angles radians.</summary>
internal readonly struct CanonicalGeodesic
{
    private const double EquatorMetres = 6378137.0; // NGA.STND.0036, WGS 84, table 3.1
    private const double Flattening = 1.0 / 298.257223563;
    private const double PoleMetres = EquatorMetres * (1.0 - Flattening);
    private const double SecondEccentricity2 = Flattening * (2.0 - Flattening) / ((1.0 - Flattening) * (1.0 - Flattening));
    private const double Tiny = 1e-150; // keeps a pole from having no direction
    private const double OnEquator = 1e-30; // radians; so near the equator is on it
    private const int MostHalvings = 200;

    // Up to half a turn of a function that differs from a constant by 0.7 %: far below rounding.
    private static readonly GaussLegendreRule Rule = new(-1.0, 1.0, 20);

    private readonly double _sinBeta1;
    private readonly double _cosBeta1;
    private readonly double _sinBeta2;
    private readonly double _cosBeta2;

    public CanonicalGeodesic(double latitude1, double latitude2)
    {
        bool equator = Math.Abs(latitude1) < OnEquator; // from a hair south of it, so that the way round by the pole is one
        (_sinBeta1, _cosBeta1) = Reduced(equator ? -0.0 : latitude1);
        (_sinBeta2, _cosBeta2) = Reduced(equator ? 0.0 : latitude2);
    }

    /// <summary>Azimuths at both ends and length for a difference of longitude in [0, π].</summary>
    public (double Start, double End, double Metres) Solve(double eastward)
    {
        bool equator = _sinBeta1 == 0.0 && _sinBeta2 == 0.0;
        if (equator && eastward <= Math.PI * (1.0 - Flattening))
        {
            return (Math.PI / 2.0, Math.PI / 2.0, EquatorMetres * eastward);
        }

        // The longitude that is reached grows with the azimuth (Karney, section 4). Counted from east, an azimuth keeps its digits beside the equator,
        // where the line leaves almost eastward.
        double low = -Math.PI / 2.0;
        double high = eastward == 0.0 ? low : Math.PI / 2.0;
        for (int k = 0; k < MostHalvings && eastward is > 0.0 and < Math.PI; k++)
        {
            double middle = 0.5 * (low + high);
            if (middle <= low || middle >= high)
            {
                break;
            }

            (low, high) = At(middle).Longitude < eastward ? (middle, high) : (low, middle);
        }

        var arc = At(high);
        return ((Math.PI / 2.0) + high, arc.End, arc.Metres);
    }

    private static (double Sine, double Cosine) Reduced(double latitude)
    {
        double sine = (1.0 - Flattening) * Math.Sin(latitude);
        double cosine = Math.Cos(latitude);
        double size = Math.Sqrt((sine * sine) + (cosine * cosine));
        return (sine / size, Math.Max(cosine / size, Tiny));
    }

    private (double Longitude, double End, double Metres) At(double fromEast)
    {
        (double back, double sin1) = Math.SinCos(fromEast);
        double cos1 = -back;
        double sin0 = sin1 * _cosBeta1;
        double cos0 = Math.Sqrt((cos1 * cos1) + (sin1 * _sinBeta1 * sin1 * _sinBeta1));
        double reach = cos1 * _cosBeta1;
        double ending = Math.Sqrt((reach * reach) + ((_sinBeta1 - _sinBeta2) * (_sinBeta1 + _sinBeta2)));
        double sigma1 = Math.Atan2(_sinBeta1, reach);
        double sigma2 = Math.Atan2(_sinBeta2, ending);
        double omega = Math.Atan2(sin0 * _sinBeta2, ending) - Math.Atan2(sin0 * _sinBeta1, reach);
        double k2 = SecondEccentricity2 * cos0 * cos0;
        double middle = 0.5 * (sigma1 + sigma2);
        double half = 0.5 * (sigma2 - sigma1);
        double length = 0.0;
        double lag = 0.0;
        for (int i = 0; i < Rule.Order; i++)
        {
            double sine = Math.Sin(middle + (half * Rule.GetAbscissa(i)));
            double root = Math.Sqrt(1.0 + (k2 * sine * sine));
            length += Rule.GetWeight(i) * root;
            lag += Rule.GetWeight(i) * (2.0 - Flattening) / (1.0 + ((1.0 - Flattening) * root));
        }

        return (omega - (Flattening * sin0 * half * lag), Math.Atan2(sin0, ending), PoleMetres * half * length);
    }
}
