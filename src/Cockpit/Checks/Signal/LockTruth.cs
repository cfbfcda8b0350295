using System.Collections.Immutable;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>What the frame locks do from strong signals down to where they fail, after a dropout, and in noise.</summary>
/// <param name="seconds">Length of a level of split-phase; of QPSK a sixth of it, which has seventy times as many frames.</param>
/// <param name="noiseSeconds">Length of noise.</param>
/// <param name="trials">How many first locks and dropouts are tried.</param>
internal sealed class LockTruth(double seconds, double noiseSeconds, int trials)
{
    private const double SplitPhaseRate = 3e6;
    private const double QpskRate = 4e6;
    private const double TrialDb = 8;
    private const double Patience = 1.0;
    private const double LossDb = 1.5;
    private const double AllFromDb = 4;
    private const double LockedFromDb = -2;
    private const double QpskLockedFromDb = -4;
    private const double Scatter = 0.08;
    private const double SettledSeconds = 1;

    private static readonly ImmutableArray<double> SplitPhaseLevels = [-4, -3, -2, -1, 0, 1, 2, 4, 6, 8, 10];
    private static readonly ImmutableArray<double> QpskLevels = [2, 0, -1, -2, -3, -4, -5, -6, -7, -8, -9, -10];

    /// <summary>All rows, each worked out when it is asked for.</summary>
    public IEnumerable<Func<LockFigure>> Rows()
    {
        foreach (double level in SplitPhaseLevels)
        {
            yield return () => SplitPhase(level);
        }

        foreach (double level in QpskLevels)
        {
            yield return () => Qpsk(level);
        }

        foreach (SignalKind kind in new[] { SignalKind.SplitPhase, SignalKind.Qpsk })
        {
            yield return () => First(kind);
            yield return () => Again(kind);
            yield return () => Noise(kind);
        }
    }

    /// <summary>Frames of split-phase at a level.</summary>
    /// <param name="level">Eb/N0 of the whole wave, dB.</param>
    public LockFigure SplitPhase(double level)
    {
        MadeRun run = MadeRun.Of(
            new IqScenario { Seconds = seconds, Seed = 21, SnrDb = [new(0, level)], DopplerHz = [new(0, 31_000), new(seconds, 31_000 - (300 * seconds))], ClockPpm = 12 }, locks: true);
        TrueFrame[] sent = [.. run.Truth.Frames.Where(f => f.StartSample > SettledSeconds * SplitPhaseRate && f.EndSample < (seconds - 0.2) * SplitPhaseRate)];
        FrameEvent[] found = [.. run.Heard.Frames.Where(f => f.SyncErrors >= 0 && sent.Any(s => Near(s, f)))];
        double share = (double)found.Length / sent.Length;
        double received = (double)found.Count(f => f.Received) / sent.Length;
        double locked = run.Heard.Windows.Skip((int)(SettledSeconds * SignalMeter.WindowsPerSecond)).Average(w => w.Locked ? 1.0 : 0.0);
        double? errors = found.Length > 0 ? found.Average(f => (double)f.SyncErrors) / MinorFrame.SyncBits : null;
        int wrong = run.Heard.Frames.Count(f => f.Received && !run.Truth.Frames.Any(s => Near(s, f)) && f.StartSample < run.Truth.Frames[^1].EndSample - 10);
        bool ok = wrong == 0 && share >= SyncTheory.Found(level - LossDb) - Scatter && (errors ?? 0) <= SyncTheory.BitErrors(level - LossDb) + Margin(found.Length);
        bool all = level < AllFromDb || (share == 1 && received == 1 && locked == 1);
        return new LockFigure(
            SignalKind.SplitPhase.Name(), "frames", level, locked, share, SyncTheory.Found(level), received, errors, SyncTheory.BitErrors(level), FirstLock(run), wrong,
            level < LockedFromDb && wrong == 0 ? null : ok && all);
    }

    // Three standard deviations of what so many sync bits let one know.
    private static double Margin(int frames) => 3 * Math.Sqrt(0.1 / Math.Max(frames * MinorFrame.SyncBits, 1));

    private static bool Near(TrueFrame sent, FrameEvent told) => Math.Abs(sent.StartSample - told.StartSample) <= 2;

    /// <summary>Markers of QPSK with code 3/4 at a level.</summary>
    /// <param name="level">Es/N0, dB.</param>
    public LockFigure Qpsk(double level)
    {
        double length = seconds / 6;
        FrameTruth truth = FrameTruth.Measure(CodeRate.ThreeQuarters, level, length, seed: 22, decoding: false);
        double theory = truth.MarkersInTheory;
        return new LockFigure(
            SignalKind.Qpsk.Name(), "markers", level, truth.Locked, truth.Markers, theory, Seconds: truth.FirstSeconds,
            Ok: level < QpskLockedFromDb ? null : truth.Locked == 1 && truth.Markers >= theory - Scatter);
    }

    /// <summary>The first lock at 8 dB, the longest of some tries.</summary>
    /// <param name="kind">Of which signal.</param>
    public LockFigure First(SignalKind kind)
    {
        IqScenario scenario = Strong(kind);
        double?[] times = [.. Enumerable.Range(0, trials).Select(k => FirstLock(MadeRun.Of(
            scenario with { Seed = 40 + (ulong)k, Seconds = 1.5, DopplerHz = [new(0, 30_000 - (7_000 * k)), new(1.5, 29_500 - (7_000 * k))] }, locks: true)))];
        double? worst = times.All(t => t is not null) ? times.Max() : null;
        return new LockFigure(kind.Name(), FormattableString.Invariant($"first lock, {trials} tries"), TrialDb, Seconds: worst, Ok: worst <= Patience);
    }

    /// <summary>The lock after a dropout at 8 dB, the longest of some tries.</summary>
    /// <param name="kind">Of which signal.</param>
    public LockFigure Again(SignalKind kind)
    {
        IqScenario scenario = Strong(kind);
        double?[] times = [.. Enumerable.Range(0, trials).Select(k => LockedAgain(
            scenario with { Seed = 60 + (ulong)k, Seconds = 4, DopplerHz = [new(0, 9_000), new(4, 7_800)] }, from: 1.2, to: 2.3 + (0.013 * k)))];
        double? worst = times.All(t => t is not null) ? times.Max() : null;
        return new LockFigure(kind.Name(), FormattableString.Invariant($"lock again, {trials} dropouts"), TrialDb, Seconds: worst, Ok: worst <= Patience);
    }

    private static double? LockedAgain(IqScenario scenario, double from, double to)
    {
        List<MeterReading> windows = MadeRun.Of(scenario with { Dropouts = [new(from, to)] }, locks: true).Heard.Windows;
        int after = (int)Math.Ceiling(to * SignalMeter.WindowsPerSecond);
        int at = windows.FindIndex(after, w => w.Locked);
        bool lost = windows.Take(after).Skip((int)(from * SignalMeter.WindowsPerSecond)).Any(w => !w.Locked);
        return at < 0 || !lost ? null : ((at + 1.0) / SignalMeter.WindowsPerSecond) - to;
    }

    private static double? FirstLock(MadeRun run)
    {
        int at = run.Heard.Windows.FindIndex(w => w.Locked);
        return at < 0 ? null : (at + 1.0) / SignalMeter.WindowsPerSecond;
    }

    /// <summary>Noise alone. The lock is made to listen, as no meter would, and told of a carrier.</summary>
    /// <param name="kind">Whose lock.</param>
    public LockFigure Noise(SignalKind kind)
    {
        double rate = kind == SignalKind.Qpsk ? QpskRate : SplitPhaseRate;
        LockHint hint = new(kind, 8_000, kind == SignalKind.Qpsk ? SpectrumTemplate.QpskRate : SpectrumTemplate.SplitPhaseRate, null);
        IFrameLock frames = kind == SignalKind.Qpsk ? new QpskFrameLock(rate) : new SplitPhaseLock(rate);
        FrameListener heard = FrameListener.Hear(
            new IqScenario { Kind = SignalKind.None, Seconds = noiseSeconds, SampleRate = rate, Seed = 23 }, frames, 0, (_, _) => hint);
        return new LockFigure(
            kind.Name(), FormattableString.Invariant($"noise, {noiseSeconds:0} s"), null, heard.Locked, False: heard.Received.Count, Ok: heard.Locked == 0 && heard.Received.Count == 0);
    }

    private static IqScenario Strong(SignalKind kind) =>
        new() { Kind = kind, SampleRate = kind == SignalKind.Qpsk ? QpskRate : SplitPhaseRate, SnrDb = [new(0, TrialDb)], ClockPpm = 15 };
}
