namespace Cockpit.Planning;

/// <summary>A day of the calendar at a place: 23, 24 or 25 hours.</summary>
public static class LocalDay
{
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(15);

    /// <summary>From its first instant to that of the next day, UTC.</summary>
    /// <param name="date">The day.</param>
    /// <param name="zone">Whose calendar.</param>
    public static (DateTimeOffset From, DateTimeOffset To) Of(DateOnly date, TimeZoneInfo zone) => (Start(date, zone), Start(date.AddDays(1), zone));

    /// <summary>Midnight; where the clock leaps over it the first time after it, where it comes twice the first of the two.</summary>
    private static DateTimeOffset Start(DateOnly date, TimeZoneInfo zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        DateTime start = date.ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified);
        while (zone.IsInvalidTime(start))
        {
            start += Step;
        }

        TimeSpan offset = zone.IsAmbiguousTime(start) ? zone.GetAmbiguousTimeOffsets(start).Max() : zone.GetUtcOffset(start);
        return new DateTimeOffset(start, offset).ToUniversalTime();
    }
}
