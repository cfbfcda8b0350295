using System.Collections.Immutable;
using Cockpit.Core.Geo;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads landmarks written as NAME=LAT,LON[,ALT_M], a semicolon between two.</summary>
public static class LandmarksText
{
    /// <summary>How they are written.</summary>
    public const string Form = "NAME=LAT,LON[,ALT_M];...";

    private const int Most = 9;
    private const int LongestName = 40;

    /// <summary>Reads them.</summary>
    /// <param name="text">One or several.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<ImmutableArray<Landmark>> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] parts = text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length is 0 or > Most)
        {
            return new ParseError(source, 0, 0, $"there are {parts.Length} landmarks; one to {Most} are written like {Form}");
        }

        var landmarks = ImmutableArray.CreateBuilder<Landmark>(parts.Length);
        foreach (string part in parts)
        {
            int equals = part.LastIndexOf('=');
            string name = equals < 0 ? "" : part[..equals].Trim();
            if (name.Length is 0 or > LongestName)
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(part)} has no name of 1 to {LongestName} letters; write landmarks like church tower=47.7985,11.2055,610");
            }

            string place = part[(equals + 1)..];
            if (!StationText.Read(place, $"{source}, {Quoted.Of(name)}").Try(out Site site, out ParseError? error))
            {
                return error;
            }

            landmarks.Add(new Landmark(name, site, place.Count(letter => letter == ',') == 2));
        }

        return landmarks.ToImmutable();
    }
}
