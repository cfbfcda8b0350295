using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>The invented satellites and stations that tables 02 to 04 share.</summary>
public sealed class ReferenceScene
{
    private readonly Dictionary<string, Sgp4> _satellites;
    private readonly Dictionary<string, Site> _stations;

    /// <summary>Reads the scene.</summary>
    /// <param name="satellites">Text of satellites.tle.</param>
    /// <param name="stations">Text of stations.json.</param>
    /// <exception cref="FormatException">The elements are not all good.</exception>
    public ReferenceScene(string satellites, string stations)
    {
        ElementFile file = ElementSets.Read("satellites.tle", new StringReader(satellites));
        if (file.Errors.Length > 0)
        {
            throw new FormatException(file.Errors[0].ToString());
        }

        _satellites = file.Sets.ToDictionary(set => set.Name, set => new Sgp4(set), StringComparer.Ordinal);
        using var document = JsonDocument.Parse(stations);
        _stations = document.RootElement.EnumerateArray().ToDictionary(
            station => station.GetProperty("id").GetString() ?? "",
            station => new Site(
                Angle.FromDegrees(station.GetProperty("lat").GetDouble()),
                Angle.FromDegrees(station.GetProperty("lon").GetDouble()),
                station.GetProperty("alt_m").GetDouble()),
            StringComparer.Ordinal);
    }

    /// <summary>Names of the satellites.</summary>
    public IEnumerable<string> Satellites => _satellites.Keys;

    /// <summary>Names of the stations.</summary>
    public IEnumerable<string> Stations => _stations.Keys;

    /// <summary>One satellite over one station.</summary>
    public SatelliteTrack Track(string satellite, string station) => new(_satellites[satellite], _stations[station]);

    /// <summary>An instant of a table.</summary>
    internal static DateTimeOffset Utc(ReferenceRow row, string column) => DateTimeOffset.Parse(
        row.Text(column), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);
}
