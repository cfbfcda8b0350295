using Cockpit.Commands;
using Cockpit.Core.Geo;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Tests.Commands;

/// <summary>A skyline taught by a phone on the dish.</summary>
public sealed class SkylinePanTests
{
    private static readonly DirectionOffer Moon = new("the moon", Angle.FromDegrees(120), Angle.FromDegrees(30), Angle.FromDegrees(1.5), "by eye");
    private static readonly DirectionOffer Mast = new("mast", Angle.FromDegrees(210), null, Angle.FromDegrees(1.5), "by eye");

    private static SkylinePan Begun(params DirectionOffer[] offers) => new(new SkylineLesson(0.0), Angle.FromDegrees(4.0), [.. offers]);

    [Fact]
    public void Set_by_the_moon_and_panned_along_the_edge_the_skyline_is_that_of_the_place()
    {
        // The phone's compass is 23 degrees off, and it sits 2 degrees low.
        SkylinePan pan = Turned(Begun(Moon, Mast), 143, 28).Here();
        Assert.Equal("set by the moon: -23.0 in azimuth, +2.0 in elevation", pan.Lesson.Note);
        pan = Turned(pan, 200 + 23, Edge(200) - 2).Here();
        for (double azimuth = 200; azimuth <= 300; azimuth += 0.7)
        {
            pan = Turned(pan, azimuth + 23, Edge(azimuth) - 2);
        }

        Assert.Equal(20, pan.Lesson.Points.Count);
        HorizonMask mask = pan.Lesson.Mask!;
        for (double azimuth = 205; azimuth <= 295; azimuth += 5)
        {
            Assert.Equal(Edge(azimuth), mask.At(Angle.FromDegrees(azimuth)).Degrees, 0.15);
        }
    }

    [Fact]
    public void Panned_back_over_the_same_edge_the_later_height_stands()
    {
        SkylinePan pan = Turned(Begun(Mast), 210, 10).Here().Here();
        pan = Turned(Turned(pan, 232, 10), 208, 16);
        Assert.Equal([210.0, 215.0, 220.0, 225.0, 230.0], pan.Lesson.Points.Keys);
        Assert.All(pan.Lesson.Points.Values.Skip(1), high => Assert.InRange(high, 10.1, 16.0));
    }

    [Fact]
    public void Across_north_the_steps_go_on_from_zero()
    {
        SkylinePan pan = Turned(Begun(Mast), 210, 5).Here();
        pan = Turned(Turned(pan, 352, 5).Here(), 8, 5);
        Assert.Equal([0.0, 5.0, 355.0], pan.Lesson.Points.Keys);
    }

    [Fact]
    public void A_jump_takes_no_points_and_stops()
    {
        SkylinePan pan = Turned(Turned(Begun(Mast), 210, 5).Here().Here(), 290, 5);
        Assert.Empty(pan.Lesson.Points);
        Assert.False(pan.IsTaking);
        Assert.Contains("jump", pan.Lesson.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_can_be_seen_its_compass_is_gone_by_with_the_declination_and_said_to_be_doubtful()
    {
        SkylinePan pan = Begun().Turned(new SensorSample(Angle.FromDegrees(100), Angle.FromDegrees(8), null, SensorNorth.Magnetic)).Here();
        Assert.Contains("steel", pan.Lesson.Note, StringComparison.Ordinal);
        Assert.Equal(104.0, pan.Points!.Value.Azimuth, 9);

        pan = Begun().Turned(new SensorSample(Angle.FromDegrees(100), Angle.FromDegrees(8), null, SensorNorth.Arbitrary)).Here();
        Assert.True(pan.IsSetting);
        Assert.Contains("no compass", pan.Lesson.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_phone_speaks_here_says_so_and_another_direction_can_be_asked_for()
    {
        Assert.Equal("the phone says nothing yet", Begun(Moon).Here().Lesson.Note);
        Assert.Equal("point the dish at mast, then HERE", Turned(Begun(Moon, Mast), 10, 10).Another().Task);
        Assert.Equal("point the dish at the moon, then HERE", SkylinePhone.GuidanceOf(Turned(Begun(Moon, Mast), 10, 10), "meadow").Note);
    }

    private static double Edge(double azimuth) => 8.0 + (4.0 * Math.Sin(azimuth / 25.0));

    private static SkylinePan Turned(SkylinePan pan, double azimuth, double elevation) =>
        pan.Turned(new SensorSample(Angle.FromDegrees(azimuth).WrappedToTurn(), Angle.FromDegrees(elevation), null, SensorNorth.True));
}
