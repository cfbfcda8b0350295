using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

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
