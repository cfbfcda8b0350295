using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;
using Cockpit.Devices.Phone;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Phone;

/// <summary>The camera of an upright phone looks along the dish: beta 90 is the horizon, 120 is 30 degrees up; alpha runs against the compass.</summary>
public sealed class PhoneOrientationTests
{
    private readonly FakeTimeProvider _time = new();
    private long _number;

    [Fact]
    public void The_absolute_kind_alone_is_counted_from_magnetic_north()
    {
        PhoneOrientation phone = Phone();
        (SensorSample sample, TimeSpan age) = Taken(phone, Said(absolute: true, 270, 120, 0, age: 40));
        Assert.Equal(90.0, sample.Azimuth!.Value.Degrees, 6);
        Assert.Equal(30.0, sample.Elevation!.Value.Degrees, 6);
        Assert.Equal(SensorNorth.Magnetic, sample.North);
        Assert.Equal(40, age.TotalMilliseconds);
    }

    [Fact]
    public void A_phone_that_lies_still_repeats_itself_and_what_it_says_holds_now()
    {
        PhoneOrientation phone = Phone();
        Taken(phone, Said(absolute: true, 270, 120, 0, age: 20));
        (_, TimeSpan age) = Taken(phone, Said(absolute: true, 270, 120, 0, age: 4000));
        Assert.Equal(TimeSpan.Zero, age);

        // What is old when it is told for the first time was held up, and says nothing of now.
        Assert.Equal("", phone.Take(Said(absolute: true, 200, 120, 0, age: 501), out _, out _));
    }

    [Fact]
    public void While_the_phone_shakes_itself_and_where_it_tells_nothing_there_is_no_sample()
    {
        PhoneOrientation phone = Phone();
        Assert.Equal("", phone.Take(Said(absolute: true, 270, 120, 0) with { Shaking = true }, out _, out _));
        Assert.Equal("", phone.Take(Said(absolute: true, null, null, null), out _, out _));
        Assert.NotEqual("", phone.Take(Said(absolute: true, 270, null, null), out _, out _));
    }

    // Seen in a browser: upright, beta is left out of an event that holds the others.
    [Fact]
    public void A_sweep_through_the_horizon_goes_on_where_beta_is_left_out()
    {
        PhoneOrientation phone = Phone();
        foreach (double beta in new[] { 88.0, 89.5, double.NaN, 90.5, 92.0 })
        {
            (SensorSample sample, _) = Taken(phone, Said(absolute: true, 270, double.IsNaN(beta) ? null : beta, 0.0001));
            Assert.Equal((double.IsNaN(beta) ? 90.0 : beta) - 90.0, sample.Elevation!.Value.Degrees, 3);
            Assert.Equal(90.0, sample.Azimuth!.Value.Degrees, 2);
        }
    }

    [Fact]
    public void The_relative_kind_alone_has_an_arbitrary_zero_once_no_other_has_come_for_a_second()
    {
        PhoneOrientation phone = Phone();
        for (int i = 0; i < 5; i++)
        {
            Assert.Equal("", phone.Take(Said(absolute: false, 100, 120, 0), out _, out _));
            _time.Advance(TimeSpan.FromMilliseconds(250));
        }

        (SensorSample sample, _) = Taken(phone, Said(absolute: false, 101, 120, 0));
        Assert.Equal(SensorNorth.Arbitrary, sample.North);
        Assert.Equal(259.0, sample.Azimuth!.Value.Degrees, 6);
    }

    [Fact]
    public void Where_both_come_the_compass_sets_the_zero_once_and_the_shape_is_that_of_the_kind_that_no_steel_disturbs()
    {
        PhoneOrientation phone = Phone();
        for (int i = 0; i < 20; i++)
        {
            _time.Advance(TimeSpan.FromMilliseconds(33));
            phone.Take(Said(absolute: false, 100 + (0.1 * i), 120, 0), out _, out _);
            phone.Take(Said(absolute: true, 270 + (0.1 * i), 120, 0), out _, out _);
        }

        // The compass turns by 30 degrees beside a car; the gyro knows better.
        _time.Advance(TimeSpan.FromMilliseconds(33));
        Assert.Equal("", phone.Take(Said(absolute: true, 300, 120, 0), out _, out _));
        (SensorSample sample, _) = Taken(phone, Said(absolute: false, 90, 125, 0));
        Assert.Equal(SensorNorth.Magnetic, sample.North);
        Assert.Equal(100.0, sample.Azimuth!.Value.Degrees, 1);
        Assert.Equal(35.0, sample.Elevation!.Value.Degrees, 6);

        // The page was away, and with it the zero.
        phone.Forget();
        (sample, _) = Taken(phone, Said(absolute: true, 300, 120, 0));
        Assert.Equal(60.0, sample.Azimuth!.Value.Degrees, 6);
    }

    [Fact]
    public void A_heading_that_a_browser_tells_apart_sets_the_zero_while_the_phone_is_flat_and_zero_is_a_heading_too()
    {
        PhoneOrientation phone = new(SensorOptions.Usual with { Axis = DeviceAxis.Top }, _time);
        (SensorSample sample, _) = Taken(phone, Said(absolute: false, 40, 10, 5) with { Heading = 0.0 });
        Assert.Equal(SensorNorth.Magnetic, sample.North);
        Assert.Equal(0.0, sample.Azimuth!.Value.WrappedToHalfTurn().Degrees, 6);

        // Upright the heading means something else: the zero stays.
        (sample, _) = Taken(phone, Said(absolute: false, 10, 80, 5) with { Heading = 222.0 });
        Assert.Equal(30.0, sample.Azimuth!.Value.Degrees, 6);
    }

    private PhoneOrientation Phone() => new(SensorOptions.Usual with { Axis = DeviceAxis.Camera }, _time);

    private PhoneMessage.Turned Said(bool absolute, double? alpha, double? beta, double? gamma, double age = 0) =>
        new(++_number, absolute, alpha, beta, gamma, TimeSpan.FromMilliseconds(age), Shaking: false, null);

    private static (SensorSample Sample, TimeSpan Age) Taken(PhoneOrientation phone, PhoneMessage.Turned said)
    {
        Assert.Null(phone.Take(said, out SensorSample sample, out TimeSpan age));
        return (sample, age);
    }
}
