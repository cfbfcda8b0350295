using System.Collections.Immutable;
using Cockpit.Core.Signal;

namespace Cockpit.Session.Computers.Link;

/// <summary>What the level remembers between events; all times are session time.</summary>
public sealed record LevelMemory
{
    /// <summary>Nothing measured yet.</summary>
    public static LevelMemory Empty { get; } = new();

    /// <summary>How the level of a well-pointed dish goes; null before the session is opened.</summary>
    public ExpectedLevel? Law { get; init; }

    /// <summary>When a well-pointed dish can receive; null without a pass, or when it never can.</summary>
    public ReceivableSpan? Receivable { get; init; }

    /// <summary>How much more than now a well-pointed dish should show 10, 20, 30 s ahead, dB; worked out each half second.</summary>
    public ImmutableArray<double> AheadDb { get; init; } = [];

    /// <summary>There was lock in this pass.</summary>
    public bool LockSeen { get; init; }

    /// <summary>Time of the pass that this session has seen.</summary>
    public TimeSpan Sent { get; init; }

    /// <summary>Of it with lock.</summary>
    public TimeSpan Received { get; init; }

    /// <summary>Session time of the last event.</summary>
    public TimeSpan At { get; init; }

    /// <summary>What it gives at the last event, dB-Hz; null below the horizon.</summary>
    public double? ShapeDb { get; init; }

    /// <summary>The last measurement.</summary>
    public SignalSample? Last { get; init; }

    /// <summary>When it arrived.</summary>
    public TimeSpan LastAt { get; init; }

    /// <summary>What steers; null before the first value.</summary>
    public SteeringQuantity? Quantity { get; init; }

    /// <summary>Steering values of the last two seconds, oldest first.</summary>
    public ImmutableArray<LevelReading> Recent { get; init; } = [];

    /// <summary>The half seconds that ended with the last event, oldest first; usually none or one, more after a gap.</summary>
    public ImmutableArray<LevelBin> Closed { get; init; } = [];

    /// <summary>The last half seconds that ended, oldest first, at most four.</summary>
    public ImmutableArray<LevelBin> Latest { get; init; } = [];

    /// <summary>Number of the half second that is running; null before the first event.</summary>
    public long? Bin { get; init; }

    /// <summary>Sum of its values, dB.</summary>
    public double BinSumDb { get; init; }

    /// <summary>Count of its values.</summary>
    public int BinCount { get; init; }

    /// <summary>Lowest mean over two seconds so far, dB.</summary>
    public double? LowestDb { get; init; }

    /// <summary>Highest mean over two seconds so far, dB.</summary>
    public double? HighestDb { get; init; }

    /// <summary>The level was measured while the satellite was below the horizon, so the lowest level is known to be one.</summary>
    public bool FloorSeen { get; init; }

    /// <summary>Since when the level has been at the floor.</summary>
    public TimeSpan? NoSignalSince { get; init; }

    /// <summary>Since when the decoder has been without lock.</summary>
    public TimeSpan? UnlockedSince { get; init; }
}

/// <summary>One steering value.</summary>
/// <param name="At">Session time of its arrival.</param>
/// <param name="Db">The value, dB.</param>
public readonly record struct LevelReading(TimeSpan At, double Db);

/// <summary>Half a second that is over.</summary>
/// <param name="Utc">Its end, UTC.</param>
/// <param name="MeanDb">Mean of its steering values, dB; null where there was none.</param>
/// <param name="Quantity">What they are; null where nothing was ever measured.</param>
public readonly record struct LevelBin(DateTimeOffset Utc, double? MeanDb, SteeringQuantity? Quantity);
