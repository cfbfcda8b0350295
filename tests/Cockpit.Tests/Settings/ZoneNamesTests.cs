using Cockpit.Settings.Stored;

namespace Cockpit.Tests.Settings;

public sealed class ZoneNamesTests
{
    private static readonly DateTime Winter = new(2026, 11, 25, 12, 0, 0, DateTimeKind.Utc);
    private static readonly DateTime Summer = new(2026, 7, 25, 12, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void A_zone_of_the_iana_database_is_found_where_the_system_has_other_names()
    {
        TimeZoneInfo? zone = ZoneNames.Find("Europe/Berlin", AsOnWindows);
        Assert.NotNull(zone);
        Assert.Equal("Europe/Berlin", zone.Id);
        Assert.Equal(TimeSpan.FromHours(1), zone.GetUtcOffset(Winter));
        Assert.Equal(TimeSpan.FromHours(2), zone.GetUtcOffset(Summer));
    }

    [Theory]
    [InlineData("W. Europe Standard Time", "W. Europe Standard Time")]
    [InlineData("Europe/Nowhere", null)]
    [InlineData("Asia/Tokyo", null)]
    [InlineData("", null)]
    public void What_the_system_knows_by_itself_is_taken_and_what_it_does_not_know_is_none(string name, string? found) =>
        Assert.Equal(found, ZoneNames.Find(name, AsOnWindows)?.Id);

    // A system that has one zone, by the name that Windows has for it, with the rules of the European Union (directive 2000/84/EC).
    private static TimeZoneInfo? AsOnWindows(string name)
    {
        TimeZoneInfo.TransitionTime Sunday(int month, int hour) => TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, hour, 0, 0), month, 5, DayOfWeek.Sunday);
        TimeZoneInfo.AdjustmentRule rule = TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(
            DateTime.MinValue.Date, DateTime.MaxValue.Date, TimeSpan.FromHours(1), Sunday(3, 2), Sunday(10, 3));
        return name is "W. Europe Standard Time" ? TimeZoneInfo.CreateCustomTimeZone(name, TimeSpan.FromHours(1), name, name, name, [rule]) : null;
    }
}
