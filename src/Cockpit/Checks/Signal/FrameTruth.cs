using System.Collections.Immutable;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>What becomes of frames of coded QPSK at one level, beside what theory allows.</summary>
/// <param name="Rate">How much of the code is sent.</param>
/// <param name="SnrDb">Es/N0, dB.</param>
/// <param name="Locked">Share of windows that ended locked, after the first 200 ms.</param>
/// <param name="FirstSeconds">When the first received frame began; null when there is none.</param>
/// <param name="Markers">Share of frames whose marker was found.</param>
/// <param name="MarkersInTheory">The same for a receiver that knows place and carrier.</param>
/// <param name="Decoded">Share of frames that could be decoded.</param>
/// <param name="DecodedIdeally">The same for symbols in exact time and phase, simulated.</param>
/// <param name="WorstStart">Largest error of the start of a found frame, samples; null when there is none.</param>
/// <param name="NotSent">Frames told as decoded that were not sent.</param>
internal sealed record FrameTruth(
    CodeRate Rate,
    double SnrDb,
    double Locked,
    double? FirstSeconds,
    double Markers,
    double MarkersInTheory,
    double Decoded,
    double DecodedIdeally,
    double? WorstStart,
    int NotSent)
{
    private const double SampleRate = 4e6;
    private const double AfterSeconds = 0.2;
    private const double BeforeEndSeconds = 0.01;
    private const double NearSamples = 2;
    private const double CertainDb = 6;
    private const double LostToTheory = 0.15;

    /// <summary>Levels, dB.</summary>
    public static ImmutableArray<double> Levels { get; } = [-10, -8, -6, -4, -2, 0, 1, 1.5, 2, 3, 4, 4.5, 5, 6, 8, 12];

    /// <summary>Eb/N0, dB, for an information bit of the convolutional code.</summary>
    public double BitEnergyDb => Rate == CodeRate.Half ? SnrDb : SnrDb - (10 * Math.Log10(1.5));

    /// <summary>Whether nothing was told that was not sent, decoding falls at most 0.15 short of the code, and from 6 dB up every frame is decoded.</summary>
    public bool Ok => NotSent == 0 && Decoded >= DecodedIdeally - LostToTheory && (SnrDb < CertainDb || (Decoded >= 0.98 && Locked == 1));

    /// <summary>Measures one level, with Doppler, its slope and a clock error.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="snrDb">Es/N0, dB.</param>
    /// <param name="seconds">Length.</param>
    /// <param name="seed">Of bits and noise.</param>
    /// <param name="decoding">Whether the frames are decoded too; else none is.</param>
    public static FrameTruth Measure(CodeRate rate, double snrDb, double seconds, ulong seed, bool decoding = true)
    {
        IqScenario scenario = new()
        {
            Kind = SignalKind.Qpsk,
            Seed = seed,
            Seconds = seconds,
            SampleRate = SampleRate,
            Qpsk = rate == CodeRate.Half ? QpskSending.Plain : QpskSending.Punctured,
            SnrDb = [new(0, snrDb)],
            DopplerHz = [new(0, 31_000), new(seconds, 31_000 - (300 * seconds))],
            ClockPpm = 12,
        };
        FrameListener markers = FrameListener.Hear(scenario, new QpskFrameLock(SampleRate) { Decoding = false }, AfterSeconds);
        FrameListener decoded = decoding ? FrameListener.Hear(scenario, new QpskFrameLock(SampleRate), AfterSeconds) : new FrameListener();
        TrueFrame[] all = [.. markers.Truth.Frames];
        TrueFrame[] judged = [.. all.Where(f => f.StartSample >= AfterSeconds * SampleRate && f.EndSample <= (seconds - BeforeEndSeconds) * SampleRate)];
        double[] near = [.. markers.Received.Select(start => all.Min(f => Math.Abs(f.StartSample - start))).Where(e => e < SampleRate / 1000)];
        return new FrameTruth(
            rate,
            snrDb,
            markers.Locked,
            markers.Received.Count > 0 ? markers.Received[0] / SampleRate : null,
            Share(judged, markers.Received),
            MarkerTheory.Found(rate, snrDb),
            Share(judged, decoded.Received),
            decoding ? IdealDecoding.Share(rate, snrDb, seed) : 0,
            near.Length > 0 ? near.Max() : null,
            decoded.Decoded.Count(start => start < all[^1].EndSample && start > all[0].StartSample - NearSamples && all.All(f => Math.Abs(f.StartSample - start) > NearSamples)));
    }

    private static double Share(TrueFrame[] judged, List<double> received) =>
        (double)judged.Count(f => received.Exists(start => Math.Abs(start - f.StartSample) <= NearSamples)) / judged.Length;
}
