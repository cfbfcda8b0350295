using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Benchmarks;

/// <summary>Element sets of satellites that do not exist, as many as wanted, to measure what a catalogue costs.</summary>
internal static class InventedCatalogue
{
    private const ulong Seed = 7;

    // Alpha-5 numbers go to 339 999.
    private const int FirstNumber = 70_000;
    private static readonly JulianDate Epoch = JulianDate.FromUtc(new DateTimeOffset(2026, 11, 25, 0, 0, 0, TimeSpan.Zero));

    internal static void Write(TextWriter output, int count)
    {
        foreach (ElementSet set in Sets(count))
        {
            if (!TleWriter.Write(set).Try(out string? lines, out ParseError? error))
            {
                throw new InvalidOperationException($"{error}");
            }

            output.WriteLine(lines.TrimEnd());
        }
    }

    /// <summary>The sets, always the same.</summary>
    internal static IEnumerable<ElementSet> Sets(int count)
    {
        Xoshiro256 chance = new(Seed);
        return [.. Enumerable.Range(0, count).Select(k => Next(chance, k))];
    }

    /// <summary>A low orbit, nearly round.</summary>
    private static ElementSet Next(Xoshiro256 chance, int k) => new()
    {
        Name = $"TERN {k}",
        CatalogNumber = FirstNumber + k,
        Epoch = Epoch,
        Inclination = Between(chance, 40, 100),
        RightAscension = Between(chance, 0, 360),
        ArgumentOfPerigee = Between(chance, 0, 360),
        MeanAnomaly = Between(chance, 0, 360),
        Eccentricity = 0.0002 + (0.0028 * chance.NextUnit()),
        MeanMotionRevPerDay = 13.9 + (1.3 * chance.NextUnit()),
        BStar = 5e-5,
    };

    private static Angle Between(Xoshiro256 chance, double least, double most) => Angle.FromDegrees(least + ((most - least) * chance.NextUnit()));
}
