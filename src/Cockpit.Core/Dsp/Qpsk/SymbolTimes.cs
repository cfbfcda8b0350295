namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Where in the recording each symbol lies, for the newest symbols.</summary>
internal sealed class SymbolTimes
{
    private const int Kept = 64;
    private readonly double[] _starts = new double[Kept];
    private readonly double[] _steps = new double[Kept];
    private long _newest;

    /// <summary>Notes the next stretch of the symbol clock.</summary>
    /// <param name="number">Number of the stretch since the last reset.</param>
    /// <param name="start">Sample of the middle of its first symbol.</param>
    /// <param name="step">Samples from symbol to symbol.</param>
    public void Note(long number, double start, double step)
    {
        (_starts[number % Kept], _steps[number % Kept]) = (start, step);
        _newest = number;
    }

    /// <summary>Where the interval of a symbol starts, half a symbol before its middle.</summary>
    /// <param name="symbol">Number of the symbol; later ones than known are extrapolated, as are those longer ago than 65 536.</param>
    /// <returns>A sample number, fractional.</returns>
    public double StartOf(long symbol)
    {
        long stretch = Math.Clamp(symbol / SymbolClock.Stretch, Math.Max(0, _newest - Kept + 1), _newest);
        double step = _steps[stretch % Kept];
        return _starts[stretch % Kept] + ((symbol - (stretch * SymbolClock.Stretch) - 0.5) * step);
    }
}
