using System.Collections.Immutable;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>One line of the table of the meter against the generator's truth.</summary>
/// <param name="Case">What was made.</param>
/// <param name="SnrDb">Its SNR; null = noise alone.</param>
/// <param name="Windows">Windows judged.</param>
/// <param name="BiasDb">Mean error of the SNR (of a carrier: of C/N0); null where none was read.</param>
/// <param name="SpreadDb">Its standard deviation.</param>
/// <param name="OffsetRmsHz">Error of the carrier offset.</param>
/// <param name="KindRight">Share of windows whose kind is right.</param>
/// <param name="FirstLock">Seconds until the first lock; null = never.</param>
/// <param name="Sent">Frames that were sent whole.</param>
/// <param name="Received">Of these, found within two samples.</param>
/// <param name="False">Frames that were told and not sent.</param>
internal sealed record TruthLine(
    string Case, double? SnrDb, int Windows, double? BiasDb, double? SpreadDb, double? OffsetRmsHz, double KindRight, double? FirstLock, int? Sent, int? Received, int? False)
{
    private const double AimedFromDb = 0;
    private const double AimDb = 0.3;

    /// <summary>Whether bias and spread are asked to be within 0.3 dB: of symbols, from 0 dB up.</summary>
    public bool IsAimed => SnrDb >= AimedFromDb;

    /// <summary>Whether they are, and every window was read as what it is; true where nothing is asked.</summary>
    public bool Ok => !IsAimed || (Math.Abs(BiasDb ?? double.NaN) <= AimDb && SpreadDb <= AimDb && KindRight == 1.0);
}

/// <summary>Makes samples of a scenario and measures them.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Scenario">What is made.</param>
internal sealed record TruthCase(string Name, IqScenario Scenario)
{
    private static readonly double[] Levels = [-5, 0, 5, 10, 15, 20];
    private static readonly double[] WideLevels = [-10, -7.5, -5, -2.5, 0, 2, 5, 8, 10, 15, 20];
    private static readonly double[] NoiseRates = [1e6, 3e6, 6e6];

    /// <summary>Whether the frame locks listen too.</summary>
    public bool Locks { get; init; }

    /// <summary>Both kinds as they are, and under everything that could mislead the estimate of their SNR.</summary>
    /// <param name="seconds">Length of each.</param>
    public static ImmutableArray<TruthCase> Usual(double seconds)
    {
        IqScenario split = new() { Seconds = seconds, DopplerHz = [new(0, -8_000)] };
        IqScenario qpsk = split with { Kind = SignalKind.Qpsk, SampleRate = 6_000_000 };
        ImmutableArray<ProfilePoint> doppler = [new(0, 36_000), new(seconds, 36_000 - (600 * seconds))];
        return
        [
            .. new[]
            {
                ("split-phase, plain", split),
                ("split-phase, Doppler", split with { DopplerHz = doppler, Seed = 2 }),
                ("split-phase, clock 20 ppm", split with { ClockPpm = 20, Seed = 3 }),
                ("split-phase, fading 6 dB", split with { FadingDb = 6, FadingHz = 0.7, Seed = 4 }),
                ("split-phase, interferer", split with { Interferers = [new(700e3, 200e3, 10)], Seed = 5 }),
                ("split-phase, picture", split with { Picture = true, Seed = 6 }),
                ("qpsk, plain", qpsk with { Seed = 11 }),
                ("qpsk, Doppler", qpsk with { DopplerHz = doppler, Seed = 12 }),
                ("qpsk, clock 20 ppm", qpsk with { ClockPpm = 20, Seed = 13 }),
                ("qpsk, fading 6 dB", qpsk with { FadingDb = 6, FadingHz = 0.7, Seed = 14 }),
                ("qpsk, interferer", qpsk with { Interferers = [new(700e3, 200e3, 10)], Seed = 15 }),
            }.SelectMany(kind => Levels.Select(snr => new TruthCase(kind.Item1, kind.Item2 with { SnrDb = [new(0, snr)] }))),
        ];
    }

    /// <summary>More kinds, rates and formats from -10 dB up, and noise alone, with the frame locks.</summary>
    /// <param name="seconds">Length of each.</param>
    public static ImmutableArray<TruthCase> Wide(double seconds)
    {
        IqScenario split = new()
        {
            Seconds = seconds, DopplerHz = [new(0, 21_000), new(seconds, 21_000 - (400 * seconds))], ClockPpm = 12,
        };
        IqScenario qpsk = split with { Kind = SignalKind.Qpsk, SampleRate = 6_000_000, Seconds = seconds / 2 };
        (string Name, IqScenario Scenario)[] kinds =
        [
            ("split-phase", split),
            ("split-phase, picture", split with { Picture = true, Seed = 5 }),
            ("split-phase, interferer, DC", split with { Interferers = [new(700e3, 200e3, 10)], DcDb = 3, Format = SampleFormat.Cu8, Seed = 6 }),
            ("split-phase, tone", split with { Interferers = [new(-30e3, 0, 8)], Format = SampleFormat.Ci8, Seed = 7 }),
            ("split-phase, swing 90", split with { SwingDegrees = 90, Seed = 8 }),
            ("split-phase, 2.4 Msps", split with { SampleRate = 2_400_000, Seed = 9 }),
            ("split-phase, fading 6 dB", split with { FadingDb = 6, FadingHz = 0.7, Seed = 10 }),
            ("qpsk 2.333", qpsk),
            ("qpsk 2.333, 4.7 Msps", qpsk with { SampleRate = 4_700_000, Seed = 11 }),
            ("qpsk 2.8", qpsk with { QpskRate = SpectrumTemplate.FastQpskRate, Seed = 12 }),
            ("qpsk 2.333, interferer", qpsk with { Interferers = [new(700e3, 200e3, 10)], Seed = 13 }),
            ("carrier", split with { Kind = SignalKind.Carrier, SampleRate = 1_000_000, Seed = 14 }),
        ];
        return
        [
            .. kinds.SelectMany(kind => WideLevels.Select(snr => new TruthCase(kind.Name, kind.Scenario with { SnrDb = [new(0, snr)] }) { Locks = true })),
            .. NoiseRates.Select(rate => new TruthCase(
                FormattableString.Invariant($"noise, {rate / 1e6:0} Msps"), split with { Kind = SignalKind.None, SampleRate = rate, Seconds = 4 * seconds, DcDb = -3, Seed = 15 }) { Locks = true }),
        ];
    }

    /// <summary>Makes and measures.</summary>
    public TruthLine Measure()
    {
        MadeRun run = MadeRun.Of(Scenario, Locks);
        return Compare(run.Truth, run.Heard);
    }

    private TruthLine Compare(IqTruth truth, RecordingSink sink)
    {
        (TrueWindow True, MeterReading Read)[] pairs = [.. truth.Windows.Zip(sink.Windows).Where(p => !p.First.Mixed)];
        double[] errors = [.. pairs.Select(p => p.True.SnrDb is null ? p.Read.CarrierToNoiseDbHz - p.True.CarrierToNoiseDbHz : p.Read.SnrDb - p.True.SnrDb).OfType<double>()];
        double[] offsets = [.. pairs.Select(p => p.Read.OffsetHz - p.True.OffsetHz).OfType<double>()];
        double bias = errors.DefaultIfEmpty(0).Average();
        int locked = sink.Windows.FindIndex(w => w.Locked);
        double[] received = [.. sink.Frames.Where(f => f.Received).Select(f => f.StartSample)];
        return new TruthLine(
            Name,
            Scenario.Kind == SignalKind.None ? null : Scenario.SnrDb[0].Value,
            pairs.Length,
            errors.Length > 0 ? bias : null,
            errors.Length > 0 ? Math.Sqrt(errors.Average(e => (e - bias) * (e - bias))) : null,
            offsets.Length > 0 ? Math.Sqrt(offsets.Average(e => e * e)) : null,
            pairs.Average(p => p.Read.Kind == p.True.Kind ? 1.0 : 0.0),
            locked < 0 ? null : (locked + 1.0) / SignalMeter.WindowsPerSecond,
            Locks ? truth.Frames.Length : null,
            !Locks ? null : truth.Frames.Count(t => received.Any(r => Math.Abs(r - t.StartSample) <= 2)),
            !Locks ? null : received.Count(r => !truth.Frames.Any(t => Math.Abs(r - t.StartSample) <= 2) && r < (truth.Frames.Length > 0 ? truth.Frames[^1].EndSample - 10 : double.MaxValue)));
    }
}
