using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>The radio side of the moment.</summary>
/// <param name="Doppler">Shift that the receiver sees, positive = higher; null without a pass.</param>
/// <param name="DopplerRateHzPerSec">Its rate, Hz/s.</param>
/// <param name="Last">The last measurement and its age; null before the first.</param>
/// <param name="Quantity">What steers; null before the first measurement.</param>
/// <param name="MeasuredDb">The steering value, smoothed 0.5 s, dB; null when it is absent.</param>
/// <param name="ExpectedDb">What a well-pointed dish should show now in the same unit, dB; null until a mark has tied the scale.</param>
/// <param name="TrendDbPerSec">Slope over the last 2 s, dB/s; null with too few measurements.</param>
/// <param name="History">The last 60 s for the strip, oldest first, one per half second.</param>
/// <param name="LockLostFor">How long the decoder has been without lock; null when locked or unknown.</param>
/// <param name="NoSignalFor">How long the level has been at the receiver's floor; null when above it, unknown or not fresh.</param>
/// <param name="Tally">What the pass has brought so far; null while the lock is unknown.</param>
/// <param name="AheadDb">What a well-pointed dish should show 10, 20, 30 s ahead, same unit as the level; none where the scale is not known.</param>
/// <param name="FloorDb">The receiver's floor as seen so far, same unit as the level; null until known.</param>
/// <param name="Carrier">The measured carrier beside the prediction; null where none is measured.</param>
/// <param name="TuneTo">Where the carrier is received now; null where the downlink was not told, or without a pass.</param>
public sealed record LinkNow(
    Frequency? Doppler,
    double? DopplerRateHzPerSec,
    Reading<SignalSample>? Last,
    SteeringQuantity? Quantity,
    double? MeasuredDb,
    double? ExpectedDb,
    double? TrendDbPerSec,
    ImmutableArray<LevelPoint> History,
    TimeSpan? LockLostFor,
    TimeSpan? NoSignalFor = null,
    double? FloorDb = null,
    PassTally? Tally = null,
    ImmutableArray<double> AheadDb = default,
    CarrierNow? Carrier = null,
    Frequency? TuneTo = null)
{
    /// <summary>Whether the last measurement speaks of now.</summary>
    public bool IsFresh => Last is { IsFresh: true };

    /// <summary>Whether the decoder is locked now, as far as a fresh measurement says.</summary>
    public bool IsLocked => Last is { IsFresh: true, Value.Locked: true };
}

/// <summary>One point of the level strip.</summary>
/// <param name="Utc">When.</param>
/// <param name="MeasuredDb">Mean of the measurements in its half second; null where there was none.</param>
/// <param name="ExpectedDb">Expectation then; null where unknown.</param>
public readonly record struct LevelPoint(DateTimeOffset Utc, double? MeasuredDb, double? ExpectedDb);
