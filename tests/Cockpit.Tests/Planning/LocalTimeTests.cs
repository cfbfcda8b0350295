using Cockpit.Core.Formats.Options;
using Cockpit.Planning;

namespace Cockpit.Tests.Planning;

/// <summary>Local time over both changes of the year.</summary>
/// <remarks>
/// Directive 2000/84/EC, articles 2 and 3: summer time from 1 a.m. Greenwich Mean Time on the last Sunday of March to 1 a.m. on the last Sunday of
/// October; the IANA time zone database says the same of Europe/Berlin. In 2026 these are 29 March and 25 October.
/// </remarks>
public sealed class LocalTimeTests
{
    private static readonly TimeZoneInfo Berlin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin");

    private static DateTimeOffset Utc(string text) => InstantText.Read(text, "test").Value;

    [Theory]
    [InlineData("2026-03-29T00:59:59Z", "01:59:59+01", "Sun 29 Mar")]
    [InlineData("2026-03-29T01:00:00Z", "03:00:00+02", "Sun 29 Mar")]
    [InlineData("2026-03-29T00:59:59.6Z", "03:00:00+02", "Sun 29 Mar")]
    [InlineData("2026-10-25T00:30:00Z", "02:30:00+02", "Sun 25 Oct")]
    [InlineData("2026-10-25T01:30:00Z", "02:30:00+01", "Sun 25 Oct")]
    [InlineData("2026-10-24T22:00:00Z", "00:00:00+02", "Sun 25 Oct")]
    [InlineData("2026-10-25T23:00:00Z", "00:00:00+01", "Mon 26 Oct")]
    public void The_hour_that_comes_twice_is_two(string utc, string second, string date)
    {
        WallTime clock = new(Berlin);
        Assert.Equal((second, date), (clock.Second(Utc(utc)) + clock.Offset(Utc(utc).AddSeconds(0.5)), clock.BriefDate(Utc(utc))));
    }

    [Theory]
    [InlineData("America/St_Johns", "2026-11-26T12:00:00Z", "08:30:00-03:30")]
    [InlineData("Asia/Kolkata", "2026-11-26T12:00:00Z", "17:30:00+05:30")]
    [InlineData("Etc/UTC", "2026-11-26T12:00:00Z", "12:00:00+00")]
    public void The_offset_has_its_minutes(string zone, string utc, string shown) =>
        Assert.Equal(shown, new WallTime(TimeZoneInfo.FindSystemTimeZoneById(zone)).SecondWithOffset(Utc(utc)));

    [Theory]
    [InlineData("Europe/Berlin", "2026-03-29", "2026-03-28T23:00:00Z", 23)]
    [InlineData("Europe/Berlin", "2026-10-25", "2026-10-24T22:00:00Z", 25)]
    [InlineData("Europe/Berlin", "2026-11-26", "2026-11-25T23:00:00Z", 24)]
    [InlineData("Africa/Cairo", "2026-04-24", "2026-04-23T22:00:00Z", 23)] // midnight itself is leapt over (IANA time zone database)
    [InlineData("America/Havana", "2026-11-01", "2026-11-01T04:00:00Z", 25)] // from 1:00 back to 0:00: midnight comes twice
    public void A_day_of_the_calendar_has_its_own_length(string zone, string date, string start, int hours)
    {
        (DateTimeOffset from, DateTimeOffset to) = LocalDay.Of(DateOnly.Parse(date, System.Globalization.CultureInfo.InvariantCulture), TimeZoneInfo.FindSystemTimeZoneById(zone));
        Assert.Equal((Utc(start), TimeSpan.FromHours(hours)), (from, to - from));
    }
}
