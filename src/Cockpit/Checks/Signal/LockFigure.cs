namespace Cockpit.Checks.Signal;

/// <summary>One row of what a frame lock does.</summary>
/// <param name="Kind">Of which signal.</param>
/// <param name="What">What was tried.</param>
/// <param name="SnrDb">Es/N0 of the whole wave, dB; null in noise alone. Split-phase: Eb/N0.</param>
/// <param name="Locked">Share of windows that ended locked.</param>
/// <param name="Found">Share of frames whose sync word or marker was found in its place.</param>
/// <param name="FoundInTheory">The same for a receiver without loss that knows the place.</param>
/// <param name="Received">Share of frames that count as received.</param>
/// <param name="BitErrors">Share of wrong bits among those of the sync words found.</param>
/// <param name="BitErrorsInTheory">The same for a receiver without loss.</param>
/// <param name="Seconds">The longest time that it took; null where it never came about, or nothing was timed.</param>
/// <param name="False">Frames or locks that were told of nothing.</param>
/// <param name="Ok">Whether what is asked of the row is reached; null where nothing is asked.</param>
internal sealed record LockFigure(
    string Kind,
    string What,
    double? SnrDb,
    double? Locked = null,
    double? Found = null,
    double? FoundInTheory = null,
    double? Received = null,
    double? BitErrors = null,
    double? BitErrorsInTheory = null,
    double? Seconds = null,
    int? False = null,
    bool? Ok = null);
