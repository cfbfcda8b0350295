using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using CsCheck;

namespace Cockpit.Tests.Frames;

public sealed class InterpolatedTrackTests
{
    [Fact]
    public void It_gives_what_the_track_gives_to_a_ten_millionth_of_a_degree() =>
        Gen.Select(Orbits.Low, Orbits.Sites, Gen.Double[0, 24]).Sample((satellite, site, hours) =>
        {
            SatelliteTrack exact = new(satellite, site);
            DateTimeOffset at = Orbits.Epoch.AddHours(hours);
            LookAngles expected = exact.At(at)!.Value;
            LookAngles given = new InterpolatedTrack(exact).At(at)!.Value;
            Assert.True(AimErrors.Separation(expected.Azimuth, expected.Elevation, given.Azimuth, given.Elevation).Degrees < 1e-7);
            Assert.Equal(expected.RangeKm, given.RangeKm, 1e-6);
            Assert.Equal(expected.RangeRateKmPerSec, given.RangeRateKmPerSec, 1e-6);
        }, iter: 300);

    [Fact]
    public void It_asks_once_a_second_however_often_it_is_asked_itself()
    {
        InterpolatedTrack track = new(new SatelliteTrack(Orbits.Of(14.2, 98.7), Orbits.Site(48, 11)));
        for (int i = 0; i < 6000; i++)
        {
            foreach (double ahead in new[] { -0.5, 0.0, 0.5, 10.0, 20.0, 30.0 })
            {
                Assert.NotNull(track.At(Orbits.Epoch.AddSeconds((i / 100.0) + ahead)));
            }
        }

        Assert.InRange(track.Asked, 60, 100);
    }

    [Fact]
    public void The_answer_does_not_depend_on_what_was_asked_before()
    {
        SatelliteTrack exact = new(Orbits.Of(14.2, 98.7), Orbits.Site(48, 11));
        InterpolatedTrack busy = new(exact);
        for (int i = 0; i < 500; i++)
        {
            _ = busy.At(Orbits.Epoch.AddSeconds(i * 7.3 % 300.0));
        }

        DateTimeOffset at = Orbits.Epoch.AddSeconds(123.456);
        Assert.Equal(new InterpolatedTrack(exact).At(at), busy.At(at));
    }

    [Fact]
    public void Where_the_track_has_no_answer_it_has_none() => Assert.Null(new InterpolatedTrack(new Nowhere()).At(Orbits.Epoch));

    private sealed class Nowhere : ITrack
    {
        public LookAngles? At(DateTimeOffset utc) => null;
    }
}
