using System.Collections.Immutable;
using Cockpit.Core.Chance;

namespace Cockpit.Session.Rehearsal;

/// <summary>What guidance loses over perfect pointing as a share of what the same hand loses without it, with its interval of 95 %.</summary>
/// <param name="Ratio">The share; 0 = guidance loses nothing more than perfect pointing.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct LossRatio(double Ratio, double Low, double High)
{
    private const int Draws = 2000;
    private const ulong Seed = 20261125;

    /// <summary>The ratio by the bootstrap over passes, perfect, unguided and guided drawn together; seeded.</summary>
    /// <remarks>B. Efron, R. Tibshirani, An Introduction to the Bootstrap (1993), percentile interval.</remarks>
    /// <param name="perfect">Perfect pointing.</param>
    /// <param name="unguided">The hand without guidance on the same passes.</param>
    /// <param name="guided">The hand with it.</param>
    public static LossRatio Of(ImmutableArray<PassScore> perfect, ImmutableArray<PassScore> unguided, ImmutableArray<PassScore> guided)
    {
        var chance = new Xoshiro256(Seed);
        var drawn = new double[Draws];
        for (int i = 0; i < Draws; i++)
        {
            double with = 0.0;
            double without = 0.0;
            for (int k = 0; k < guided.Length; k++)
            {
                int pass = chance.NextBelow(guided.Length);
                with += guided[pass].LostShare - perfect[pass].LostShare;
                without += unguided[pass].LostShare - perfect[pass].LostShare;
            }

            drawn[i] = with / without;
        }

        Array.Sort(drawn);
        double all = guided.Zip(perfect, (g, p) => g.LostShare - p.LostShare).Sum() / unguided.Zip(perfect, (u, p) => u.LostShare - p.LostShare).Sum();
        return new LossRatio(all, drawn[(int)(0.025 * Draws)], drawn[(int)(0.975 * Draws) - 1]);
    }
}
