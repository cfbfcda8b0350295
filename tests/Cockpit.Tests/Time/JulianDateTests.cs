using Cockpit.Core.Time;
using CsCheck;

namespace Cockpit.Tests.Time;

public sealed class JulianDateTests
{
    // J. Meeus, Astronomical Algorithms, 2nd ed. (1998), table 7.a.
    [Theory]
    [InlineData(2000, 1, 1, 12.0, 2451545.0)]
    [InlineData(1999, 1, 1, 0.0, 2451179.5)]
    [InlineData(1988, 6, 19, 12.0, 2447332.0)]
    [InlineData(1900, 1, 1, 0.0, 2415020.5)]
    [InlineData(1600, 12, 31, 0.0, 2305812.5)]
    public void The_published_Julian_days_are_met(int year, int month, int day, double hours, double expected)
    {
        JulianDate date = JulianDate.FromUtc(new DateTimeOffset(year, month, day, 0, 0, 0, TimeSpan.Zero).AddHours(hours));
        Assert.Equal(expected, date.Day + date.Fraction);
        Assert.InRange(date.Fraction, 0.0, 1.0);
    }

    [Fact]
    public void An_instant_comes_back_to_the_tick() =>
        Gen.Long[DateTime.MinValue.Ticks, DateTime.MaxValue.Ticks].Sample(ticks =>
        {
            var utc = new DateTimeOffset(ticks, TimeSpan.Zero);
            return JulianDate.FromUtc(utc).ToUtc() == utc;
        });

    [Fact]
    public void Differences_keep_their_microseconds()
    {
        var utc = new DateTimeOffset(2026, 11, 25, 23, 59, 59, TimeSpan.Zero);
        JulianDate before = JulianDate.FromUtc(utc);
        JulianDate after = JulianDate.FromUtc(utc.AddTicks(20_000_010));
        Assert.Equal(2.000001 / 60.0, after.MinutesSince(before), 1e-12);
        Assert.Equal(utc.AddSeconds(90), before.AddSeconds(90).ToUtc());
        Assert.Equal(utc.AddMinutes(-3), before.AddMinutes(-3).ToUtc());
    }

    [Fact]
    public void An_offset_other_than_zero_is_refused() =>
        Assert.Throws<ArgumentException>(() => JulianDate.FromUtc(new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.FromHours(1))));
}
