using System.Collections.Immutable;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Link;

/// <summary>What the expectation remembers between events.</summary>
/// <param name="History">The last 60 s for the strip, oldest first, one point for each half second.</param>
public sealed record ExpectationMemory(ImmutableArray<LevelPoint> History)
{
    /// <summary>Nothing seen yet.</summary>
    public static ExpectationMemory Empty { get; } = new([]);
}

/// <summary>What the expectation depends on besides its own past.</summary>
/// <param name="Scene">The event and its moment.</param>
/// <param name="Level">The level after the event.</param>
/// <param name="ExpectedDb">What a well-pointed dish should show now by the belief, dB of the measured quantity; null when unknown.</param>
public sealed record ExpectationInput(Scene Scene, LevelNow Level, double? ExpectedDb);

/// <summary>What a well-pointed dish should show, the strip of both, and the Doppler shift. Pure.</summary>
public static class ExpectationComputer
{
    private const int HistoryPoints = 120;

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static ExpectationMemory Next(ExpectationMemory memory, ExpectationInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        ImmutableArray<LevelPoint> history = input.Scene.Opens ? [] : memory.History;
        foreach (LevelBin bin in input.Level.Closed)
        {
            LevelPoint point = new(bin.Utc, bin.MeanDb, input.ExpectedDb);
            history = (history.Length < HistoryPoints ? history : history.RemoveAt(0)).Add(point);
        }

        return history == memory.History ? memory : new ExpectationMemory(history);
    }

    /// <summary>What screen and cues see of the radio side.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static LinkNow Derive(ExpectationMemory memory, ExpectationInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        LevelNow level = input.Level;
        return new LinkNow(
            Shift(input.Scene),
            ShiftRate(input.Scene),
            level.Last,
            level.Quantity,
            level.MeasuredDb,
            input.ExpectedDb,
            level.TrendDbPerSec,
            memory.History,
            level.LockLostFor,
            level.NoSignalFor,
            level.FloorDb,
            level.Tally,
            input.ExpectedDb is { } expected && !level.AheadDb.IsDefault ? [.. level.AheadDb.Select(change => expected + change)] : []);
    }

    private static Frequency? Shift(Scene scene) =>
        scene.Sky?.Now is { } look ? Doppler.Shift(scene.Settings.Downlink, look.RangeRateKmPerSec) : null;

    /// <summary>Rate from the range rate half a second before and after.</summary>
    private static double? ShiftRate(Scene scene)
    {
        TimeSpan half = TimeSpan.FromSeconds(0.5);
        return scene.Plan is { Track: { } track } && track.At(scene.Utc - half) is { } before && track.At(scene.Utc + half) is { } after
            ? Doppler.RateHertzPerSecond(scene.Settings.Downlink, after.RangeRateKmPerSec - before.RangeRateKmPerSec)
            : null;
    }
}
