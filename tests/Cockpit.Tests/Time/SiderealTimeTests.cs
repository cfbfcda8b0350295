using Cockpit.Core.Time;

namespace Cockpit.Tests.Time;

public sealed class SiderealTimeTests
{
    // ERFA gmst82 (the IAU SOFA algorithm), pyerfa 2.0.0; the file's README allows 1e-8 deg.
    [Fact]
    public void Greenwich_matches_the_IAU_SOFA_values()
    {
        foreach (CsvRow row in ReferenceFiles.Csv("08_geodesy/gmst.csv"))
        {
            double got = SiderealTime.Greenwich(new JulianDate(row.Number("jd0"), row.Number("frac"))).Degrees;
            Assert.Equal(row.Number("gmst82_deg"), got, 1e-8);
        }
    }

    // D. Vallado, Fundamentals of Astrodynamics and Applications, example 3-5: 1992 August 20, 12:14 UT1.
    [Fact]
    public void Greenwich_matches_Vallado_example_3_5()
    {
        JulianDate ut1 = JulianDate.FromUtc(new DateTimeOffset(1992, 8, 20, 12, 14, 0, TimeSpan.Zero));
        Assert.Equal(152.578787810, SiderealTime.Greenwich(ut1).Degrees, 1e-7);
    }

    // J. Meeus, Astronomical Algorithms, 2nd ed. (1998), example 12.b: 1987 April 10, 19h21m UT -> 8h34m57.0896s.
    [Fact]
    public void Greenwich_matches_Meeus_example_12b_to_half_its_last_digit()
    {
        double seconds = SiderealTime.Greenwich(new JulianDate(2446895.5, 0.80625)).Degrees * 240.0;
        Assert.Equal((8 * 3600) + (34 * 60) + 57.0896, seconds, tolerance: 0.00005);
    }
}
