using Cockpit.Core.Geo;

namespace Cockpit.Settings.Stored;

/// <summary>A place in the numbers of the settings.</summary>
public static class SettingsPlaces
{
    /// <summary>Keys and numbers of a place.</summary>
    /// <param name="site">The place.</param>
    public static IEnumerable<(string Key, double Value)> Numbers(Site site)
    {
        // To a tenth of a metre: what the angle's radians add behind that is noise.
        yield return ("latitude_deg", Math.Round(site.Latitude.Degrees, 6));
        yield return ("longitude_deg", Math.Round(site.Longitude.Degrees, 6));
        yield return ("altitude_m", Math.Round(site.HeightMetres, 1));
    }
}
