using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads a station written as LAT,LON[,ALT_M].</summary>
public static class StationText
{
    private const string Wanted = "write the station as LAT,LON[,ALT_M] in degrees and metres, like 47.8,11.2,520";

    /// <summary>Reads degrees north, degrees east and metres above the WGS 84 ellipsoid (0 where missing).</summary>
    /// <param name="text">Two or three numbers with commas between them.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<Site> Read(string text, string source)
    {
        string[] parts = text.Split(',');
        double height = 0.0;
        if (parts.Length is < 2 or > 3
            || !NumberText.TryRead(parts[0], out double latitude)
            || !NumberText.TryRead(parts[1], out double longitude)
            || (parts.Length == 3 && !NumberText.TryRead(parts[2], out height)))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a station; {Wanted}");
        }

        string? wrong = latitude is < -90 or > 90 ? $"latitude {parts[0].Trim()} is outside -90 to 90"
            : longitude is < -180 or > 180 ? $"longitude {parts[1].Trim()} is outside -180 to 180 (west is negative)"
            : height is < -1000 or > 20000 ? $"height {parts[2].Trim()} m is outside -1000 to 20000"
            : null;
        return wrong is null
            ? new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), height)
            : new ParseError(source, 0, 0, $"{wrong}; {Wanted}");
    }
}
