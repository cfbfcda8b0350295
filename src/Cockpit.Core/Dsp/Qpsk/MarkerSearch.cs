using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Looks for the encoded marker of every variant; it stands far above the noise long before a decoder works.</summary>
/// <remarks>
/// In noise a square divided by its mean is exponential, a sum of k of them a gamma variable; a candidate is told when the bound of
/// H. Chernoff (Ann. Math. Stat. 23 (1952), 493) on its tail is below e^-26: 1.4e9 sums a minute are compared.
/// A tenth of a second in vain is followed by as long a rest: a signal of another kind shall not cost more than one that is received.
/// </remarks>
internal sealed class MarkerSearch
{
    private const double Threshold = 26.0;
    private const int BlocksBetweenTests = 4;
    private const int MostBlocks = 64;

    private readonly MarkerSums[] _all =
    [
        new(CodeRate.ThreeQuarters, false), new(CodeRate.ThreeQuarters, true), new(CodeRate.Half, false), new(CodeRate.Half, true),
    ];

    private int _blocks;
    private int _rest;

    /// <summary>What was found.</summary>
    public MarkerVariant Variant { get; private set; }

    /// <summary>Number of the symbol, modulo the cycle, at which a cycle of frames starts.</summary>
    public int Position { get; private set; }

    /// <summary>Starts anew.</summary>
    public void Clear() => (_blocks, _rest) = (0, 0);

    /// <summary>Takes the next block.</summary>
    /// <param name="block">Symbols in time with the clock.</param>
    /// <returns>True when a marker was found.</returns>
    public bool Take(in SymbolBlock block)
    {
        if (_rest > 0)
        {
            _rest--;
            return false;
        }

        if (_blocks == 0)
        {
            foreach (MarkerSums sums in _all)
            {
                sums.Clear();
            }
        }

        foreach (MarkerSums sums in _all)
        {
            sums.Add(block);
        }

        _blocks++;
        bool found = _blocks % BlocksBetweenTests == 0 && Test();
        bool inVain = !found && _blocks >= MostBlocks;
        _rest = inVain ? MostBlocks : 0;
        _blocks = found || inVain ? 0 : _blocks;
        return found;
    }

    private bool Test()
    {
        double best = Threshold;
        bool found = false;
        foreach (MarkerSums sums in _all)
        {
            double exponent = Exponent(sums.Largest(out int position, out MarkerVariant variant), sums.Count(_blocks));
            if (exponent > best)
            {
                (best, found) = (exponent, true);
                (Position, Variant) = (position, variant);
            }
        }

        return found;
    }

    // P(sum > x) < exp(-(x - k - k ln(x / k))).
    private static double Exponent(double sum, int count) => sum <= count ? 0.0 : sum - count - (count * Math.Log(sum / count));
}
