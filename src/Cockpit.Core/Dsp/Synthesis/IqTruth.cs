using System.Collections.Immutable;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>What is true of one window of 100 ms.</summary>
/// <param name="FirstSample">Number of its first sample.</param>
/// <param name="Kind">What signal it has.</param>
/// <param name="Mixed">Whether the signal came or went within it.</param>
/// <param name="SnrDb">Es/N0 of the mean power; null where there is none or it has no symbols.</param>
/// <param name="CarrierToNoiseDbHz">C/N0 of the mean power; null where there is none.</param>
/// <param name="OffsetHz">Mean carrier; null where there is none.</param>
public readonly record struct TrueWindow(long FirstSample, SignalKind Kind, bool Mixed, double? SnrDb, double? CarrierToNoiseDbHz, double? OffsetHz);

/// <summary>One frame that was sent.</summary>
/// <param name="Number">Its number.</param>
/// <param name="StartSample">First edge of its first sync bit.</param>
/// <param name="EndSample">Where the next begins.</param>
/// <param name="LeastSnrDb">The lowest SNR within it; null where the signal was away.</param>
public readonly record struct TrueFrame(long Number, double StartSample, double EndSample, double? LeastSnrDb);

/// <summary>What is true of a recording that was made.</summary>
/// <param name="Windows">One each 100 ms.</param>
/// <param name="Frames">Frames that ended within it.</param>
public sealed record IqTruth(ImmutableArray<TrueWindow> Windows, ImmutableArray<TrueFrame> Frames);
