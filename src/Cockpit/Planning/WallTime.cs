using System.Globalization;

namespace Cockpit.Planning;

/// <summary>Time as a list shows it: UTC, or that of a zone.</summary>
/// <param name="Zone">The zone; null = UTC.</param>
public sealed record WallTime(TimeZoneInfo? Zone)
{
    /// <summary>What has to be said beside the place; empty for UTC.</summary>
    public string Note => Zone is { } zone ? $"; times are local ({zone.Id})" : "; times are UTC";

    /// <summary>Day and minute: "26 17:37".</summary>
    public string Day(DateTimeOffset utc) => At(utc).ToString("dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The minute: "17:37".</summary>
    public string Minute(DateTimeOffset utc) => At(utc).ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The second, to the nearest: "17:37:04".</summary>
    public string Second(DateTimeOffset utc) => Nearest(utc).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>The second with the difference to UTC behind it, as ISO 8601 writes it: "17:37:04+01", so that the hour that comes twice in autumn is two.</summary>
    public string SecondWithOffset(DateTimeOffset utc) => Second(utc) + Offset(utc);

    /// <summary>The date in words: "Thursday 26 November 2026".</summary>
    public string Date(DateTimeOffset utc) => Nearest(utc).ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>The date in few letters: "Thu 26 Nov".</summary>
    public string BriefDate(DateTimeOffset utc) => Nearest(utc).ToString("ddd d MMM", CultureInfo.InvariantCulture);

    /// <summary>The difference to UTC: "+01", "-03:30".</summary>
    public string Offset(DateTimeOffset utc)
    {
        TimeSpan offset = At(utc).Offset;
        string hours = offset.ToString("hh", CultureInfo.InvariantCulture);
        string minutes = offset.Minutes == 0 ? "" : offset.ToString("':'mm", CultureInfo.InvariantCulture);
        return (offset < TimeSpan.Zero ? "-" : "+") + hours + minutes;
    }

    /// <summary>The instant in this time.</summary>
    public DateTimeOffset At(DateTimeOffset utc) => Zone is { } zone ? TimeZoneInfo.ConvertTime(utc, zone) : utc.ToUniversalTime();

    private DateTimeOffset Nearest(DateTimeOffset utc) => At(utc.AddTicks(TimeSpan.TicksPerSecond / 2));
}
