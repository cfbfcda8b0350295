namespace Cockpit.Core.Dsp;

/// <summary>Says of each block what signal is in it, how strong and where; remembers only where the last one was.</summary>
/// <remarks>
/// A spectrum that looks like a signal is not enough, because no front end is flat: a kind is named only when something else that noise
/// does not have bears it out (residual carrier, line of the square, of the fourth power, or of the symbol clock).
/// </remarks>
public sealed class SignalFinder
{
    /// <summary>Share of the power in the residual carrier at the usual phase swing of 67 degrees (from memory).</summary>
    public const double ResidualCarrierShare = 0.152671;

    private const double Maybe = 6;
    private const double Present = 10;
    private const double CarrierRatio = 2.2;
    private const double LoneCarrierRatio = 4;
    private const double ClockRatio = 10;

    // Half a block is enough where its line of the clock stands out so much.
    private const double ClearRatio = 40;
    private const int MostLines = 4;

    // The mean of a flat spectrum lies a few percent above its lower fifth.
    private const double LeastUnevenness = 1.2;

    private readonly double _sampleRate;
    private readonly WindowSpectrum _fine;
    private readonly CoarseSpectrum _coarse;
    private readonly SplitPhaseFit _splitFit;
    private readonly BandSearch _splitSearch;
    private readonly BandSearch[] _qpskSearches;
    private readonly QpskLines[] _qpskLines;
    private readonly SquaringLine _squaring;
    private readonly SpectralLine[] _lines = new SpectralLine[MostLines];
    private Sighting _last;
    private bool _clear;

    /// <summary>Prepares the tables.</summary>
    /// <param name="sampleRate">Samples a second.</param>
    /// <param name="longestBlock">Samples of the longest block.</param>
    public SignalFinder(double sampleRate, int longestBlock)
    {
        const double WidestBinHz = 400;
        _sampleRate = sampleRate;
        int size = 1024;
        while (sampleRate / size > WidestBinHz)
        {
            size *= 2;
        }

        _fine = new WindowSpectrum(size);
        _coarse = new CoarseSpectrum(size, sampleRate, longestBlock / sampleRate);
        _splitFit = new SplitPhaseFit(_coarse);
        _splitSearch = new BandSearch(SpectrumTemplate.SplitPhase(), _coarse);
        _squaring = new SquaringLine(size, sampleRate, longestBlock);
        double[] rates = [SpectrumTemplate.QpskRate, SpectrumTemplate.FastQpskRate];
        _qpskSearches = [.. rates.Select(rate => new BandSearch(SpectrumTemplate.Qpsk(rate), _coarse)).Where(search => search.Fits(_coarse))];
        _qpskLines = [.. _qpskSearches.Select(search => new QpskLines(sampleRate, search.Template.SymbolRate, longestBlock))];
    }

    /// <summary>The spectrum of the last block, for a look at it: from minus half the sample rate upwards.</summary>
    public CoarseSpectrum Spectrum => _coarse;

    private double FineStepHz => _sampleRate / _fine.Size;

    /// <summary>Looks at a block.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="statistics">Of the same samples.</param>
    public Sighting Look(in ComplexBlock block, in BlockStatistics statistics)
    {
        _fine.Measure(block, (float)statistics.MeanI, (float)statistics.MeanQ);
        _coarse.Take(_fine.Power);
        int blind = statistics.DcPower > 1e-4 * statistics.Power ? 2 : -1;
        int lines = LineSearch.Strongest(_fine, _sampleRate, 0, BandSearch.RangeHz, blind, CarrierRatio, _lines);
        _last = Find(block, statistics, _lines.AsSpan(0, lines));
        return _last;
    }

    /// <summary>Forgets where the last signal was.</summary>
    public void Reset() => (_last, _clear) = (default, false);

    private Sighting Find(in ComplexBlock block, in BlockStatistics statistics, ReadOnlySpan<SpectralLine> lines)
    {
        (Sighting split, double misfit) = SplitPhaseAtLines(lines);
        if (split.Kind != SignalKind.None && (misfit < 1.6 || _last.Kind == SignalKind.SplitPhase))
        {
            return split;
        }

        // A signal without a carrier to see goes on as what it was.
        if (split.Kind == SignalKind.None && _last.Kind == SignalKind.SplitPhase && SuppressedCarrier(block, statistics) is { } going)
        {
            return going;
        }

        if (Qpsk(block, split.Kind == SignalKind.None ? double.MaxValue : misfit) is { } qpsk)
        {
            return qpsk;
        }

        return split.Kind != SignalKind.None ? split
            : SuppressedCarrier(block, statistics) ?? LoneCarrier(lines) ?? new Sighting(SignalKind.None, 0, _coarse.QuietFloor(), 0, null, 0);
    }

    private (Sighting Sighting, double Misfit) SplitPhaseAtLines(ReadOnlySpan<SpectralLine> lines)
    {
        Sighting best = default;
        double misfit = double.MaxValue;
        foreach (SpectralLine line in lines)
        {
            FitResult fit = _splitFit.Fit(_coarse, line.Hz, LineSearch.HalfWidth * FineStepHz);
            double share = line.Power / (line.Power + fit.Signal);
            if (fit.Significance >= Maybe && share is > 0.03 and < 0.5 && fit.Misfit < misfit)
            {
                misfit = fit.Misfit;
                best = new Sighting(
                    SignalKind.SplitPhase, SpectrumTemplate.SplitPhaseRate, fit.Noise, fit.Signal + line.Power, line.Hz, ConfidenceOf(fit));
            }
        }

        return (best, misfit);
    }

    private Sighting? Qpsk(in ComplexBlock block, double misfitToBeat)
    {
        // What it was just before it most likely is still: the other rates cost time.
        Sighting? best = null;
        for (int k = 0; k < _qpskSearches.Length && _last.Kind == SignalKind.Qpsk; k++)
        {
            best ??= _last.SymbolRate == _qpskSearches[k].Template.SymbolRate ? Qpsk(block, k, _last.OffsetHz, ref misfitToBeat) : null;
        }

        for (int k = 0; k < _qpskSearches.Length && (best is null || _last.Kind != SignalKind.Qpsk); k++)
        {
            best = Qpsk(block, k, null, ref misfitToBeat) ?? best;
        }

        return best;
    }

    private Sighting? Qpsk(in ComplexBlock block, int k, double? near, ref double misfitToBeat)
    {
        (double hz, FitResult fit) = _qpskSearches[k].Search(_coarse, near);
        if (fit.Significance < Present || fit.Misfit >= misfitToBeat)
        {
            return null;
        }

        (double clock, double? offset) = Lines(block, k, hz, tracked: near is not null);
        if (clock < ClockRatio)
        {
            return null;
        }

        misfitToBeat = fit.Misfit;
        return new Sighting(SignalKind.Qpsk, _qpskSearches[k].Template.SymbolRate, fit.Noise, fit.Signal, offset ?? hz, ConfidenceOf(fit));
    }

    private (double ClockRatio, double? OffsetHz) Lines(in ComplexBlock block, int k, double hz, bool tracked)
    {
        if (tracked && _clear)
        {
            (double clock, double? offset) = _qpskLines[k].MeasureHalf(block, hz);
            if (clock >= ClearRatio && offset is not null)
            {
                return (clock, offset);
            }
        }

        (double ClockRatio, double? OffsetHz) whole = _qpskLines[k].Measure(block, hz);
        _clear = whole is { ClockRatio: >= 2 * ClearRatio, OffsetHz: not null };
        return whole;
    }

    // A phase swing of a quarter turn leaves no carrier, and DC may hide it: the square of the wave has a line all the same.
    private Sighting? SuppressedCarrier(in ComplexBlock block, in BlockStatistics statistics)
    {
        if (_coarse.Unevenness < LeastUnevenness && _splitSearch.Search(_coarse, null).Fit.Significance < Present)
        {
            return null;
        }

        Span<double> carriers = stackalloc double[MostLines];
        Sighting? best = null;
        double misfit = double.MaxValue;
        foreach (double offset in carriers[.._squaring.Measure(block, statistics, carriers)])
        {
            FitResult fit = _splitFit.Fit(_coarse, offset, LineSearch.HalfWidth * FineStepHz);
            if (fit.Significance >= Present && fit.Misfit < misfit)
            {
                misfit = fit.Misfit;
                double hidden = Math.Abs(offset) <= 3 * FineStepHz ? 1 / (1 - ResidualCarrierShare) : 1;
                best = new Sighting(SignalKind.SplitPhase, SpectrumTemplate.SplitPhaseRate, fit.Noise, fit.Signal * hidden, offset, ConfidenceOf(fit));
            }
        }

        return best;
    }

    private Sighting? LoneCarrier(ReadOnlySpan<SpectralLine> lines)
    {
        if (lines.Length == 0 || lines[0].Ratio < LoneCarrierRatio)
        {
            return null;
        }

        // With data beside it, it is the residual carrier of a weak signal; say "carrier" only when there is room for no more than that.
        FitResult fit = _splitFit.Fit(_coarse, lines[0].Hz, LineSearch.HalfWidth * FineStepHz);
        const double DataToCarrier = (1 - ResidualCarrierShare) / ResidualCarrierShare;
        bool alone = fit.Signal + (2 * fit.SignalError) < 0.4 * DataToCarrier * lines[0].Power;
        return alone
            ? new Sighting(SignalKind.Carrier, 0, _coarse.QuietFloor(), lines[0].Power, lines[0].Hz, 1 - Math.Pow(2, -lines[0].Ratio / LoneCarrierRatio))
            : null;
    }

    private static double ConfidenceOf(in FitResult fit) => 1 - Math.Pow(2, -fit.Significance / Maybe);
}
