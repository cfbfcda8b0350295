using Cockpit.Core.Geo;

namespace Cockpit.Core.Magnetic;

/// <summary>The World Magnetic Model 2025: spherical harmonics of degree 12 with linear change.</summary>
public static class WorldMagneticModel
{
    private const double ReferenceRadiusKm = 6371.2; // geomagnetic reference sphere of the model
    private const int Degree = MagneticCoefficients.Degree;

    /// <summary>The field at a place and instant.</summary>
    /// <param name="site">The place; the model holds from 1 km below to 850 km above the ellipsoid.</param>
    /// <param name="utc">The instant, UTC; outside 2025 to 2030 the result carries a warning.</param>
    public static MagneticField At(Site site, DateTimeOffset utc) => At(site, DecimalYear(utc));

    /// <summary>The field at a place and decimal year.</summary>
    /// <param name="site">The place.</param>
    /// <param name="year">Decimal year, like 2026.9.</param>
    /// <remarks>Source: World Magnetic Model 2025, technical report, sections 1.2 and 1.3.</remarks>
    public static MagneticField At(Site site, double year)
    {
        // km, radians
        var place = EcefPosition.FromSite(site);
        double equatorial = Math.Sqrt((place.X * place.X) + (place.Y * place.Y));
        double geocentric = Math.Atan2(place.Z, equatorial);

        Span<double> now = stackalloc double[3];
        Span<double> rate = stackalloc double[3];
        Sum(geocentric, site.Longitude.Radians, ReferenceRadiusKm / place.RadiusKm, year - MagneticCoefficients.Epoch, now, rate);
        (double turnSine, double turnCosine) = Math.SinCos(geocentric - site.Latitude.Radians);
        return new MagneticField(
            year,
            (now[0] * turnCosine) - (now[2] * turnSine),
            now[1],
            (now[0] * turnSine) + (now[2] * turnCosine),
            (rate[0] * turnCosine) - (rate[2] * turnSine),
            rate[1],
            (rate[0] * turnSine) + (rate[2] * turnCosine));
    }

    /// <summary>The year with its fraction, by days of that year.</summary>
    /// <param name="utc">The instant, UTC.</param>
    public static double DecimalYear(DateTimeOffset utc)
    {
        var start = new DateTimeOffset(utc.Year, 1, 1, 0, 0, 0, TimeSpan.Zero);
        return utc.Year + ((utc - start).TotalDays / (DateTime.IsLeapYear(utc.Year) ? 366.0 : 365.0));
    }

    // Geocentric north, east, down (nT) now and their yearly change.
    private static void Sum(double latitude, double longitude, double ratio, double years, Span<double> now, Span<double> rate)
    {
        var legendre = new LegendreFunctions(latitude, Degree);
        ReadOnlySpan<double> rows = MagneticCoefficients.Rows;
        double power = ratio * ratio;
        int at = 0;
        for (int n = 1; n <= Degree; n++)
        {
            power *= ratio;
            for (int m = 0; m <= n; m++)
            {
                ReadOnlySpan<double> row = rows.Slice(at, MagneticCoefficients.Width);
                at += MagneticCoefficients.Width;
                (double sine, double cosine) = Math.SinCos(m * longitude);
                (double value, double slope, double overCosine) = legendre.At(n, m);
                Add(now, row[0] + (years * row[2]), row[1] + (years * row[3]));
                Add(rate, row[2], row[3]);

                void Add(Span<double> sum, double g, double h)
                {
                    double along = (g * cosine) + (h * sine);
                    sum[0] -= power * along * slope;
                    sum[1] += power * m * ((g * sine) - (h * cosine)) * overCosine;
                    sum[2] -= (n + 1) * power * along * value;
                }
            }
        }
    }
}
