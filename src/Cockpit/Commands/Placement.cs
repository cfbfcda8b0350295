using System.Globalization;
using Cockpit.Core.Geo;

namespace Cockpit.Commands;

/// <summary>Reads a place back to the person who typed it.</summary>
internal static class Placement
{
    private const double DegreesPerHour = 15.0;

    /// <summary>Zones reach three hours to either side of their sun at most.</summary>
    private const double FarHours = 3.5;

    /// <summary>The place in words: "47.80 north, 11.20 east, 520 m".</summary>
    public static string Words(Site site) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Math.Abs(site.Latitude.Degrees):0.00} {(site.Latitude.Degrees < 0 ? "south" : "north")}, {Math.Abs(site.Longitude.Degrees):0.00} {(site.Longitude.Degrees < 0 ? "west" : "east")}, {site.HeightMetres:0} m");

    /// <summary>A caution where the longitude does not fit the time zone of the computer: a sign forgotten is the commonest mistake. Null where it fits.</summary>
    /// <param name="site">The place.</param>
    /// <param name="zone">The computer's zone.</param>
    /// <param name="utc">When.</param>
    public static string? Caution(Site site, TimeZoneInfo zone, DateTimeOffset utc)
    {
        double clock = zone.GetUtcOffset(utc).TotalHours;

        // A computer that is set to UTC says nothing of where it stands.
        if (zone.BaseUtcOffset == TimeSpan.Zero && !zone.SupportsDaylightSavingTime)
        {
            return null;
        }

        double apart = Math.Abs(Math.IEEERemainder((site.Longitude.Degrees / DegreesPerHour) - clock, 24.0));
        return apart > FarHours
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"caution: {Words(site)} lies {apart:0} hours of sun from the time zone of this computer ({zone.Id}); east is positive, west negative")
            : null;
    }
}
