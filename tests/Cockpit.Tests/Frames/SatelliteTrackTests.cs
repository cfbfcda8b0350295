using Cockpit.Core.Sky;
using CsCheck;

namespace Cockpit.Tests.Frames;

public sealed class SatelliteTrackTests
{
    // The azimuth turns so fast near the zenith that the difference over 0.1 s is no rate: its error, h^2 / 6 of the third derivative, passes 1e-6 there.
    private const double MostDegrees = 80;

    [Fact]
    public void The_rates_are_the_growth_of_the_angles() =>
        Gen.Select(Orbits.Low, Orbits.Sites, Gen.Double[0, 24]).Sample((satellite, site, hours) =>
        {
            var track = new SatelliteTrack(satellite, site);
            DateTimeOffset at = Orbits.Epoch.AddHours(hours);
            LookAngles before = track.At(at.AddSeconds(-0.05))!.Value;
            LookAngles after = track.At(at.AddSeconds(0.05))!.Value;
            LookRates rates = track.RatesAt(at)!.Value;
            if (before.Elevation.Degrees > MostDegrees)
            {
                return;
            }

            // What is left out of a central difference grows with the third power of the rates, most near the zenith.
            double across = (after.Azimuth - before.Azimuth).WrappedToHalfTurn().Radians * 10 * before.Elevation.Cos();
            Assert.Equal(across, rates.AzimuthPerSecond!.Value.Radians * before.Elevation.Cos(), 5e-6);
            Assert.Equal((after.Elevation - before.Elevation).Radians * 10, rates.ElevationPerSecond!.Value.Radians, 1e-6);
            Assert.Equal((after.RangeRateKmPerSec - before.RangeRateKmPerSec) * 10, rates.RangeAccelerationKmPerSec2, 1e-6);

            // The theory's velocity is not the exact derivative of its position: up to some 1e-4 km/s lie between them.
            Assert.Equal((after.RangeKm - before.RangeKm) * 10, track.At(at)!.Value.RangeRateKmPerSec, 5e-4);
        }, iter: 300);

    // tests/data/reference/02_look_angles/README.md: a UT1 that is off by 1 s moves the satellite by up to 465 m, 0.024 degrees.
    [Fact]
    public void UT1_minus_UTC_turns_the_earth_by_fifteen_seconds_of_arc_a_second()
    {
        var satellite = Orbits.Of(14.2, 98.7);
        LookAngles plain = new SatelliteTrack(satellite, Orbits.Site(0, 10)).At(Orbits.Epoch)!.Value;
        LookAngles later = new SatelliteTrack(satellite, Orbits.Site(0, 10), 0.5).At(Orbits.Epoch)!.Value;
        LookAngles moved = new SatelliteTrack(satellite, Orbits.Site(0, 10 + (0.5 * 360 / 86164.0905))).At(Orbits.Epoch)!.Value;
        Assert.NotEqual(plain.Azimuth.Degrees, later.Azimuth.Degrees, 1e-6);
        Assert.Equal(moved.Azimuth.Degrees, later.Azimuth.Degrees, 1e-6);
        Assert.Equal(moved.Elevation.Degrees, later.Elevation.Degrees, 1e-6);
    }
}
