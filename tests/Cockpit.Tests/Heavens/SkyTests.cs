using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Heavens;

public sealed class SkyTests
{
    // J. Meeus, Astronomical Algorithms, 2nd ed., example 47.a: 1992 April 12, 0h TD -> 133.162655°, -3.229126°, 368409.7 km.
    [Fact]
    public void The_moon_matches_Meeus_example_47a_to_half_its_last_digit()
    {
        MoonOrbit moon = MoonOrbit.At(new JulianDate(2448724.5, 0.0).DaysSince(JulianDate.J2000) / 36525.0);
        Assert.Equal(133.162655, moon.Longitude.Degrees, 0.5e-6);
        Assert.Equal(-3.229126, moon.Latitude.Degrees, 0.5e-6);
        Assert.Equal(368409.7, moon.DistanceKm, 0.05);
    }

    // J. Meeus, Astronomical Algorithms, 2nd ed., example 22.a: 1987 April 10, 0h TD -> -3.788″, +9.443″, 23°26′36.850″. The book's
    // example takes another polynomial for the mean obliquity than the report we follow; near today the two differ by 0.001″.
    [Fact]
    public void Nutation_matches_Meeus_example_22a_to_half_its_last_digit()
    {
        Nutation nutation = Nutation.At(new JulianDate(2446895.5, 0.0).DaysSince(JulianDate.J2000) / 36525.0);
        Assert.Equal(-3.788, nutation.InLongitude.Degrees * 3600, 0.0005);
        Assert.Equal(9.443, nutation.InObliquity.Degrees * 3600, 0.0005);
        Assert.Equal((23 * 3600) + (26 * 60) + 36.850, nutation.TrueObliquity.Degrees * 3600, 0.0015);
    }

    // J. Meeus, Astronomical Algorithms, 2nd ed., example 25.b (from memory): 1992 October 13, 0h TD -> by the complete theory 13h13m30.749s,
    // -7°47′01.74″. Our shortened series is stated to be good to 1″.
    [Fact]
    public void The_apparent_sun_matches_Meeus_example_25b_to_a_second_of_arc()
    {
        var place = ApparentPlace.Of(SkyBody.Sun, new JulianDate(2448908.5, 0.0), terrestrialMinusUtcSeconds: 0.0);
        Assert.Equal((13 * 3600) + (13 * 60) + 30.749, place.RightAscension.Degrees * 240, 1.0 / 15);
        Assert.Equal(-((7 * 3600) + (47 * 60) + 1.74), place.Declination.Degrees * 3600, 1.0);
    }

    // J. Meeus, Astronomical Algorithms, 2nd ed., example 16.a: Bennett at 0.5° -> 28.754′; Saemundsson at 33.246′ -> 24.618′.
    [Fact]
    public void Refraction_matches_Meeus_example_16a_to_half_its_last_digit()
    {
        Assert.Equal(28.754, Refraction.Bennett(Angle.FromDegrees(0.5)).Degrees * 60, 0.0005);
        Assert.Equal(24.618, Refraction.Saemundsson(Angle.FromDegrees(33.246 / 60)).Degrees * 60, 0.0005);
    }

    [Fact]
    public void Radio_refraction_raises_what_is_above_the_horizon_and_leaves_the_rest()
    {
        Assert.Equal(0.578704, Refraction.ApparentRadioElevation(Angle.Zero, 0).Degrees, 1e-6);
        Assert.Equal(-1.0, Refraction.ApparentRadioElevation(Angle.FromDegrees(-1), 0).Degrees, 1e-12);
    }

    [Fact]
    public void The_range_rate_of_the_moon_is_the_slope_of_its_range()
    {
        var track = new BodyTrack(SkyBody.Moon, new Site(Angle.FromDegrees(-29.26), Angle.FromDegrees(-70.73), 2000));
        var utc = new DateTimeOffset(2026, 11, 26, 15, 13, 35, TimeSpan.Zero);
        LookAngles first = track.At(utc)!.Value;
        LookAngles later = track.At(utc.AddMinutes(1))!.Value;
        Assert.Equal((later.RangeKm - first.RangeKm) / 60, first.RangeRateKmPerSec, 0.01);
        Assert.InRange(first.RangeKm, 350000, 410000);
    }

    // At a station's antipode it stands opposite, but for its parallax of 8.94″ at most.
    [Fact]
    public void The_sun_stands_opposite_at_the_antipode() =>
        Gen.Select(Gen.Double[-85, 85], Gen.Double[-179, 179], Gen.Int[0, 1800]).Sample((latitude, longitude, days) =>
        {
            DateTimeOffset utc = new DateTimeOffset(2025, 1, 1, 7, 0, 0, TimeSpan.Zero).AddDays(days);
            var here = new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), 0);
            var there = new Site(Angle.FromDegrees(-latitude), Angle.FromDegrees(longitude > 0 ? longitude - 180 : longitude + 180), 0);
            double sum = new BodyTrack(SkyBody.Sun, here).At(utc)!.Value.Elevation.Degrees
                + new BodyTrack(SkyBody.Sun, there).At(utc)!.Value.Elevation.Degrees;
            return Math.Abs(sum) < 2 * 8.95 / 3600;
        });
}
