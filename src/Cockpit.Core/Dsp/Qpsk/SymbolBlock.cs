namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>A run of symbols in order, with some of the run before it; a view, valid during the call only.</summary>
internal readonly ref struct SymbolBlock
{
    /// <summary>New symbols in a block.</summary>
    public const int Length = 4096;

    /// <summary>Symbols of the block before, in front.</summary>
    public const int Margin = 64;

    /// <summary>A view on symbols.</summary>
    /// <param name="first">Number of the first new symbol, counted from the last reset; a multiple of <see cref="Length"/>.</param>
    /// <param name="i">In-phase, <see cref="Margin"/> + <see cref="Length"/> values.</param>
    /// <param name="q">Quadrature.</param>
    /// <param name="power">Mean power of the new symbols.</param>
    public SymbolBlock(long first, ReadOnlySpan<float> i, ReadOnlySpan<float> q, float power)
    {
        First = first;
        I = i;
        Q = q;
        Power = power;
    }

    /// <summary>Number of the first new symbol.</summary>
    public long First { get; }

    /// <summary>Number of the symbol at index 0.</summary>
    public long Start => First - Margin;

    /// <summary>In-phase components.</summary>
    public ReadOnlySpan<float> I { get; }

    /// <summary>Quadrature components.</summary>
    public ReadOnlySpan<float> Q { get; }

    /// <summary>Mean power of the new symbols.</summary>
    public float Power { get; }
}
