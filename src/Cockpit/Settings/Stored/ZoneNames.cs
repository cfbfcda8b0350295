using TimeZoneConverter;

namespace Cockpit.Settings.Stored;

/// <summary>Time zones by their names in the IANA time zone database (RFC 6557), which Windows has names of its own for.</summary>
public static class ZoneNames
{
    /// <summary>The zone of a name, with that name.</summary>
    /// <param name="name">Like Europe/Berlin; on Windows its own names too.</param>
    /// <returns>Null where this computer knows none.</returns>
    public static TimeZoneInfo? Find(string name) => Find(name, text => TimeZoneInfo.TryFindSystemTimeZoneById(text, out TimeZoneInfo? zone) ? zone : null);

    /// <summary>The same among the zones that a function knows.</summary>
    internal static TimeZoneInfo? Find(string name, Func<string, TimeZoneInfo?> system)
    {
        if (system(name) is { } known)
        {
            return known;
        }

        return TZConvert.TryIanaToWindows(name, out string? there) && system(there) is { } zone
            ? TimeZoneInfo.CreateCustomTimeZone(name, zone.BaseUtcOffset, name, zone.StandardName, zone.DaylightName, zone.GetAdjustmentRules())
            : null;
    }
}
