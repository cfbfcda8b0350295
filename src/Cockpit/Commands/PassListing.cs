using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Commands;

/// <summary>What cockpit passes looks for.</summary>
/// <param name="Station">Where one stands.</param>
/// <param name="From">Start of the span, UTC.</param>
/// <param name="To">Its end.</param>
/// <param name="Above">The lowest elevation that counts.</param>
/// <param name="Horizon">What hides the sky, or null.</param>
/// <param name="Dut1Seconds">UT1 - UTC.</param>
/// <param name="Refraction">Whether elevations are meant with radio refraction.</param>
internal sealed record PassQuestion(Site Station, DateTimeOffset From, DateTimeOffset To, Angle Above, HorizonMask? Horizon, double Dut1Seconds, bool Refraction)
{
    /// <summary>An elevation as it is shown.</summary>
    public Angle Shown(Angle geometric) => Refraction ? Core.Sky.Refraction.ApparentRadioElevation(geometric, HeightKm) : geometric;

    /// <summary>The limit without air for a limit as it is seen.</summary>
    internal Angle Geometric(Angle seen) =>
        Refraction && seen > Angle.Zero ? seen - Core.Sky.Refraction.RadioFromApparent(seen, HeightKm)
        : Refraction ? seen - Core.Sky.Refraction.RadioFromApparent(Angle.Zero, HeightKm)
        : seen;

    private double HeightKm => Math.Clamp(Station.HeightMetres / 1e3, 0.0, 3.0); // the range of ITU-R P.834's formula
}

/// <summary>The whole list of passes at once, for what cannot be told pass by pass: the best first, a calendar.</summary>
internal static class PassListing
{
    /// <summary>All passes of a stream, by time of rise; clashes among them named.</summary>
    /// <param name="passes">The passes.</param>
    /// <param name="finished">Told the number of satellites that are done after each one, from any thread.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <param name="most">Most passes that are taken.</param>
    /// <returns>The verdicts, or one sentence why these are too many.</returns>
    public static Parsed<ImmutableArray<PassVerdict>> All(PassStream passes, Action<int> finished, CancellationToken cancellation, int most = PassStream.MostHeld)
    {
        ArgumentNullException.ThrowIfNull(passes);
        var all = ImmutableArray.CreateBuilder<PassVerdict>();
        while (!passes.IsDone)
        {
            if (!passes.Next(finished, cancellation).Try(out ImmutableArray<PassVerdict> some, out ParseError? error))
            {
                return error;
            }

            all.AddRange(some);
            if (all.Count > most)
            {
                return passes.TooMany(most);
            }
        }

        return all.ToImmutable();
    }
}
