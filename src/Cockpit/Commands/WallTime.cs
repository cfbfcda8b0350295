using System.Globalization;

namespace Cockpit.Commands;

/// <summary>Time as a list shows it: UTC, or that of a zone.</summary>
/// <param name="Zone">The zone; null = UTC.</param>
internal sealed record WallTime(TimeZoneInfo? Zone)
{
    /// <summary>What has to be said beside the place; empty for UTC.</summary>
    public string Note => Zone is { } zone ? $"; times are local ({zone.Id})" : "; times are UTC";

    /// <summary>Day and minute: "26 17:37".</summary>
    public string Day(DateTimeOffset utc) => At(utc).ToString("dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The minute: "17:37".</summary>
    public string Minute(DateTimeOffset utc) => At(utc).ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The instant in this time.</summary>
    public DateTimeOffset At(DateTimeOffset utc) => Zone is { } zone ? TimeZoneInfo.ConvertTime(utc, zone) : utc.ToUniversalTime();
}
