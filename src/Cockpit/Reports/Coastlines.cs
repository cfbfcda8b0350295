using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Units;

namespace Cockpit.Reports;

/// <summary>The coasts of the world at a small scale, shipped in the program.</summary>
/// <remarks>Natural Earth 4.1.0, land boundaries 1:50m, public domain; <c>coastlines.py</c> beside the data says how it was thinned.</remarks>
internal static class Coastlines
{
    /// <summary>What a picture that shows them must say.</summary>
    public const string Credit = "Coastlines: Natural Earth, public domain";

    private const string Name = "Cockpit.Reports.coastlines.txt";
    private const int FewestPlaces = 3; // the data's cut along the date line leaves two slivers
    private const double HundredthsPerDegree = 100.0;

    /// <summary>Each coast as places in order.</summary>
    public static ImmutableArray<ImmutableArray<(Angle Latitude, Angle Longitude)>> All { get; } = Read();

    /// <summary>Whether a place lies on land: whether an odd number of coasts goes around it.</summary>
    public static bool IsLand(Angle latitude, Angle longitude) => All.Count(coast => GoesAround(coast, latitude, longitude)) % 2 == 1;

    /// <summary>Whether a coast goes around a place: the north pole, which is water, lies outside every coast.</summary>
    public static bool GoesAround(ImmutableArray<(Angle Latitude, Angle Longitude)> coast, Angle latitude, Angle longitude)
    {
        bool inside = false;
        (Angle Latitude, Angle Longitude) before = coast[^1];
        foreach ((Angle Latitude, Angle Longitude) place in coast)
        {
            // Along the meridian to the pole: is the coast crossed?
            double from = (before.Longitude - longitude).WrappedToHalfTurn().Degrees;
            double to = (place.Longitude - longitude).WrappedToHalfTurn().Degrees;
            if ((from < 0.0) != (to < 0.0) && Math.Abs(from - to) < 180.0)
            {
                inside ^= before.Latitude + ((place.Latitude - before.Latitude) * (from / (from - to))) > latitude;
            }

            before = place;
        }

        return inside;
    }

    private static ImmutableArray<ImmutableArray<(Angle Latitude, Angle Longitude)>> Read()
    {
        using Stream stream = typeof(Coastlines).Assembly.GetManifestResourceStream(Name)
            ?? throw new InvalidOperationException($"the program was built without {Name}");
        using var reader = new StreamReader(stream);
        var coasts = ImmutableArray.CreateBuilder<ImmutableArray<(Angle, Angle)>>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#' && Coast(line) is { Length: > FewestPlaces } coast)
            {
                coasts.Add(coast);
            }
        }

        return coasts.ToImmutable();
    }

    private static ImmutableArray<(Angle Latitude, Angle Longitude)> Coast(string line)
    {
        var places = ImmutableArray.CreateBuilder<(Angle, Angle)>();
        int longitude = 0;
        int latitude = 0;
        foreach (string step in line.Split(' '))
        {
            int comma = step.IndexOf(',', StringComparison.Ordinal);
            longitude += int.Parse(step.AsSpan(0, comma), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
            latitude += int.Parse(step.AsSpan(comma + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
            places.Add((Angle.FromDegrees(latitude / HundredthsPerDegree), Angle.FromDegrees(longitude / HundredthsPerDegree)));
        }

        return places.ToImmutable();
    }
}
