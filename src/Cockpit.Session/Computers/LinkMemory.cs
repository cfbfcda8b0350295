using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>What the radio side depends on besides its own past.</summary>
/// <param name="Settings">What the session is about.</param>
/// <param name="Sky">Where the satellite is; null without a pass.</param>
/// <param name="Track">The satellite's path, any instant; null without a pass.</param>
/// <param name="GainDb">Measured level minus <see cref="ExpectedLevel.ShapeDb"/> by the marks; null before the first.</param>
public sealed record LinkContext(SessionSettings Settings, SkyNow? Sky, ITrack? Track, double? GainDb);

/// <summary>What the radio side remembers between events.</summary>
public sealed record LinkMemory
{
    /// <summary>Nothing measured yet.</summary>
    public static LinkMemory Empty { get; } = new();

    /// <summary>The last measurement.</summary>
    public SignalSample? Last { get; init; }

    /// <summary>When it arrived, UTC.</summary>
    public DateTimeOffset? LastUtc { get; init; }

    /// <summary>When it arrived, session time.</summary>
    public TimeSpan LastElapsed { get; init; }

    /// <summary>Session time of the last event of any kind.</summary>
    public TimeSpan Now { get; init; }

    /// <summary>The same in UTC.</summary>
    public DateTimeOffset NowUtc { get; init; }

    /// <summary>What steers; null before the first value.</summary>
    public string? Quantity { get; init; }

    /// <summary>Steering values of the last two seconds, oldest first.</summary>
    public ImmutableArray<LevelReading> Recent { get; init; } = [];

    /// <summary>Finished half seconds, oldest first, at most 120.</summary>
    public ImmutableArray<LevelPoint> History { get; init; } = [];

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

    /// <summary>Since when the level has been at the floor, session time.</summary>
    public TimeSpan? NoSignalSince { get; init; }

    /// <summary>Since when the decoder has been without lock, session time.</summary>
    public TimeSpan? UnlockedSince { get; init; }
}

/// <summary>One steering value.</summary>
/// <param name="Elapsed">Session time of its arrival.</param>
/// <param name="Db">The value, dB.</param>
public readonly record struct LevelReading(TimeSpan Elapsed, double Db);
