using Cockpit.Commands;
using Cockpit.Planning;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;

namespace Cockpit.Tests.Commands;

public sealed class WallTimeTests
{
    private static DateTimeOffset Utc(string text) => InstantText.Read(text, "test").Value;

    private static Site At(string text) => StationText.Read(text, "test").Value;

    // IANA time zone database, Europe/Berlin: summer time from the last Sunday of March to the last of October, 01:00 UTC.
    [Theory]
    [InlineData("2026-03-29T00:59:00Z", "29 01:59")]
    [InlineData("2026-03-29T01:00:00Z", "29 03:00")]
    [InlineData("2026-10-25T00:59:00Z", "25 02:59")]
    [InlineData("2026-10-25T01:00:00Z", "25 02:00")]
    [InlineData("2026-12-31T23:30:00Z", "01 00:30")]
    public void Local_time_follows_both_changes_of_the_year(string utc, string shown) =>
        Assert.Equal(shown, new WallTime(TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin")).Day(Utc(utc)));

    [Fact]
    public void Without_a_zone_it_is_UTC() => Assert.Equal("29 01:00", new WallTime(null).Day(Utc("2026-03-29T03:00:00+02:00")));

    [Theory]
    [InlineData("47.8,11.2,520", "47.80 north, 11.20 east, 520 m")]
    [InlineData("-33.9,-70.7", "33.90 south, 70.70 west, 0 m")]
    public void A_place_is_read_back_in_words(string station, string words) => Assert.Equal(words, Placement.Words(At(station)));

    [Theory]
    [InlineData("47.8,11.2", "Europe/Berlin", false)]
    [InlineData("47.8,-11.2", "Europe/Berlin", false)]
    [InlineData("47.8,-71.2", "Europe/Berlin", true)]
    [InlineData("40.7,74.0", "America/New_York", true)]
    [InlineData("40.7,-74.0", "America/New_York", false)]
    [InlineData("-17.7,178.0", "Pacific/Fiji", false)]
    [InlineData("-17.7,-178.0", "Pacific/Fiji", false)]
    [InlineData("40.7,74.0", "Etc/UTC", false)]
    public void A_longitude_that_does_not_fit_the_clock_gets_a_caution(string station, string zone, bool caution) =>
        Assert.Equal(caution, Placement.Caution(At(station), TimeZoneInfo.FindSystemTimeZoneById(zone), Utc("2026-11-26T12:00:00Z")) is not null);
}
