using System.Globalization;
using Cockpit.Core.Dsp;

namespace Cockpit.Checks.Signal;

/// <summary>Compares what the meter said of a clip with its truth, figure by figure.</summary>
/// <remarks>Limits: those that the makers of the reference clips set for a meter of this kind.</remarks>
internal sealed class ClipCheck(ClipTruth truth, RecordingSink measured)
{
    private const double LockEbN0Db = 8;
    private const double GoodSnrDb = 6;
    private const double WindowSeconds = 0.1;

    private IEnumerable<(ClipWindow True, MeterReading Read)> Pairs => truth.Windows.Zip(measured.Windows);

    /// <summary>All figures that this clip has something to measure for.</summary>
    public IEnumerable<Figure> Figures() => [.. Snr(), .. OffsetAndKind(), .. Locks(), .. Frames(), .. Levels()];

    private IEnumerable<Figure> Snr()
    {
        for (int step = 0; step < 20 && truth.JudgeSnr; step += 5)
        {
            double[] errors = [.. Pairs
                .Where(p => !p.True.Mixed && p.True.ClipShare <= 0.01 && p.True.SnrDb is { } snr && snr >= step && snr < step + 5 + (step == 15 ? 1 : 0))
                .Select(p => p.Read.SnrDb is { } read ? read - p.True.SnrDb!.Value : double.PositiveInfinity)];
            if (errors.Length > 0)
            {
                double bias = errors.Average();
                yield return Of(string.Create(CultureInfo.InvariantCulture, $"SNR bias, {step} to {step + 5} dB"), bias, "dB", 0.3);
                yield return Of(string.Create(CultureInfo.InvariantCulture, $"SNR sd, {step} to {step + 5} dB"), Math.Sqrt(errors.Average(e => (e - bias) * (e - bias))), "dB", 0.5);
            }
        }
    }

    private IEnumerable<Figure> OffsetAndKind()
    {
        var good = Pairs.Where(p => !p.True.Mixed && StrengthOf(p.True) >= GoodSnrDb).ToArray();
        if (good.Length > 0)
        {
            yield return Of("offset rms", Math.Sqrt(good.Average(p => p.Read.OffsetHz is { } hz ? Math.Pow(hz - p.True.OffsetHz!.Value, 2) : 1e12)), "Hz", 200);
            yield return Of("kind right", 100 * good.Average(p => Same(p) ? 1.0 : 0), "%", 95, atLeast: true);
        }

        var empty = Pairs.Where(p => !p.True.Mixed && p.True.Kind is "none").ToArray();
        if (empty.Length > 0)
        {
            yield return Of("kind in noise, wrong windows", empty.Count(p => !Same(p)), "", 0);
        }
    }

    private IEnumerable<Figure> Locks()
    {
        double came = double.NaN, went = double.NegativeInfinity;
        int late = 0;
        double slowest = 0;
        bool waiting = false, seen = false;
        foreach ((ClipWindow window, MeterReading read) in Pairs)
        {
            bool present = !window.Mixed && window.SnrDb + truth.EbN0MinusSnrDb >= LockEbN0Db;
            bool absent = window.SnrDb is null;
            if (present && double.IsNaN(came))
            {
                (came, waiting, seen) = (window.Seconds, true, true);
            }

            if (absent && !double.IsNaN(came))
            {
                (came, waiting, went) = (double.NaN, false, window.Seconds);
            }

            if (waiting && read.Locked)
            {
                slowest = Math.Max(slowest, window.Seconds + WindowSeconds - came);
                waiting = false;
            }

            late += absent && read.Locked && window.Seconds + WindowSeconds > went + 1 ? 1 : 0;
        }

        if (seen)
        {
            yield return Of("time to lock, slowest", waiting ? double.PositiveInfinity : slowest, "s", 1);
        }

        yield return Of("lock without signal, windows", late, "", 0);
    }

    private IEnumerable<Figure> Frames()
    {
        double[] received = [.. measured.Frames.Where(f => f.Received).Select(f => f.StartSample)];
        int locked = measured.Windows.FindIndex(w => w.Locked);
        double from = locked < 0 ? double.MaxValue : measured.Windows[locked].FirstSample;
        ClipFrame[] wanted = [.. truth.Frames.Where(f => f.Whole && f.StartSample >= from && f.LeastSnrDb + truth.EbN0MinusSnrDb >= LockEbN0Db && Reported(f))];
        if (truth.Frames.Any(f => f.Whole && f.LeastSnrDb + truth.EbN0MinusSnrDb >= LockEbN0Db))
        {
            double[] errors = [.. wanted.Select(f => received.Select(r => Math.Abs(r - f.StartSample)).DefaultIfEmpty(double.PositiveInfinity).Min())];
            yield return Of("frames found", wanted.Length == 0 ? 0 : 100.0 * errors.Count(e => e <= 2) / wanted.Length, "%", 98, atLeast: true);
            yield return Of("frame start, largest error", errors.Where(double.IsFinite).DefaultIfEmpty(0).Max(), "samples", 2);
        }

        yield return Of("frames that were not sent", received.Count(r => !truth.Frames.Any(f => Math.Abs(f.StartSample - r) <= 2)), "", 0);
    }

    private IEnumerable<Figure> Levels()
    {
        yield return Of("level, largest error", Pairs.Max(p => Math.Abs((p.Read.LevelDbfs ?? -300) - p.True.LevelDbfs)), "dB", 0.1);
        yield return Of("clip share, largest error", Pairs.Max(p => Math.Abs(p.Read.ClipShare - p.True.ClipShare)), "", 0.001);
        yield return Of("noise floor, largest error", Pairs.Where(p => p.True.ClipShare <= 0.01).Max(p => Math.Abs((p.Read.NoiseDbfs ?? -300) - p.True.NoiseDbfs)), "dB", 0.5);
    }

    // A frame is told when it has ended and the next sync word has come: not if the clip ends before.
    private bool Reported(ClipFrame frame) =>
        frame.EndSeconds + 0.001 <= measured.Windows.Count * WindowSeconds;

    private static double StrengthOf(ClipWindow window) => window.SnrDb ?? (window.CarrierToNoiseDbHz is { } cn0 ? cn0 - (10 * Math.Log10(SpectrumTemplate.SplitPhaseRate)) : double.NegativeInfinity);

    private static bool Same((ClipWindow True, MeterReading Read) pair) => string.Equals(pair.True.Kind, pair.Read.Kind.Name(), StringComparison.Ordinal);

    private Figure Of(string name, double value, string unit, double limit, bool atLeast = false) => new(truth.Name, name, value, unit, limit, atLeast);
}
