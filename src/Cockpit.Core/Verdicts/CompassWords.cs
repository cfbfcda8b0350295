using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>Directions as a person says them.</summary>
public static class CompassWords
{
    private static readonly ImmutableArray<string> Points =
    [
        "north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east", "south-south-east",
        "south", "south-south-west", "south-west", "west-south-west", "west", "west-north-west", "north-west", "north-north-west",
    ];

    private static readonly ImmutableArray<string> Letters =
    [
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW",
    ];

    /// <summary>The nearest of sixteen points, like "south-south-east".</summary>
    /// <param name="azimuth">From north through east, any turn.</param>
    public static string Sixteen(Angle azimuth) => Points[Nearest(azimuth, 16)];

    /// <summary>The nearest of eight points, like "south-east".</summary>
    /// <param name="azimuth">From north through east, any turn.</param>
    public static string Eight(Angle azimuth) => Points[2 * Nearest(azimuth, 8)];

    /// <summary>The nearest of sixteen points in letters, like "SSE".</summary>
    /// <param name="azimuth">From north through east, any turn.</param>
    public static string Abbreviated(Angle azimuth) => Letters[Nearest(azimuth, 16)];

    private static int Nearest(Angle azimuth, int points) =>
        (int)Math.Round(azimuth.WrappedToTurn().Degrees * points / 360.0, MidpointRounding.AwayFromZero) % points;
}
