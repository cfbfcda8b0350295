using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Link;

/// <summary>The level of the moment, before anything is known about the dish.</summary>
/// <param name="Last">The last measurement and its age; null before the first.</param>
/// <param name="Quantity">What steers; null before the first value.</param>
/// <param name="MeasuredDb">The steering value, smoothed 0.5 s, dB; null when it is absent.</param>
/// <param name="TrendDbPerSec">Slope over the last 2 s, dB/s; null with too few measurements.</param>
/// <param name="Closed">The half seconds that ended with this event, oldest first.</param>
/// <param name="ShapeDb">C/N0 of a dish that points at the satellite exactly, by the budget, dB-Hz; null below the horizon.</param>
/// <param name="LockLostFor">Session time without lock; null when locked or unknown.</param>
/// <param name="NoSignalFor">Session time at the receiver's floor; null when above it, unknown or not fresh.</param>
/// <param name="FloorDb">The receiver's floor as seen so far; null until known.</param>
/// <param name="Tally">What the pass has brought so far; null while the lock is unknown.</param>
/// <param name="AheadDb">How much more than now a well-pointed dish should show 10, 20, 30 s ahead, dB; none outside the pass.</param>
public sealed record LevelNow(
    Reading<SignalSample>? Last,
    SteeringQuantity? Quantity,
    double? MeasuredDb,
    double? TrendDbPerSec,
    ImmutableArray<LevelBin> Closed,
    double? ShapeDb,
    TimeSpan? LockLostFor,
    TimeSpan? NoSignalFor,
    double? FloorDb,
    PassTally? Tally,
    ImmutableArray<double> AheadDb)
{
    /// <summary>Whether the last measurement speaks of now.</summary>
    public bool IsFresh => Last is { IsFresh: true };
}
