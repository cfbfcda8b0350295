using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What the estimate depends on besides its own past.</summary>
/// <param name="Scene">The event and its moment.</param>
/// <param name="Level">The level after the event.</param>
/// <param name="Asked">The move that the hand had been asked for, or told of, before the event; null when none.</param>
public sealed record EstimateInput(Scene Scene, LevelNow Level, AskedMove? Asked);

/// <summary>What is known at one moment.</summary>
/// <param name="Dish">Where the dish is believed to be, its spread as of now; null when nothing is known.</param>
/// <param name="Change">The last change of that direction.</param>
/// <param name="IsLost">The satellite is out of the beam, so the believed direction is worth nothing.</param>
/// <param name="IsWide">The direction is known too badly to call moves by it.</param>
/// <param name="GainDb">Measured level minus C/N0 by the budget for a well-pointed dish, dB; null before the first mark.</param>
/// <param name="GainQuantity">The quantity that the gain belongs to.</param>
/// <param name="SinceMark">Real time since the last mark that was believed; null without one.</param>
/// <param name="Notice">An answer to the operator; null when there is none.</param>
public sealed record EstimateNow(
    Pointing? Dish,
    BeliefChange Change,
    bool IsLost,
    bool IsWide,
    double? GainDb,
    SteeringQuantity? GainQuantity,
    TimeSpan? SinceMark,
    Message? Notice);

/// <summary>Where the dish is, without a pointing sensor: dead reckoning between marks, and the scale of its level. Pure; reads no clock.</summary>
/// <remarks>
/// "Peaked" ties the belief to the satellite; moves that were asked for move it, confirmed by key or taken as done after a
/// moment; its spread grows with each. A level at the floor says that the satellite is lost, one that the belief does not
/// explain that it is wrong. What the hand is to do next is not decided here.
/// </remarks>
public static class EstimateComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static EstimateMemory Next(EstimateMemory memory, EstimateInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        EstimateDraft draft = new(input.Scene.Opens ? EstimateMemory.Empty : memory, input);
        new EstimateWatch(draft, input).Run();
        new EstimateKeys(draft, input).Run();
        return draft.Memory;
    }

    /// <summary>What the later steps see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static EstimateNow Derive(EstimateMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        Angle? spread = memory.Dish is { } known ? EstimateDraft.SpreadAt(known, scene) : null;
        Pointing? dish = memory.Dish is { } belief && spread is { } wide
            ? new Pointing(belief.Azimuth, belief.Elevation, wide.Degrees > 90.0 ? Angle.FromDegrees(90) : wide, belief.Origin)
            : null;
        return new EstimateNow(
            dish,
            memory.Change,
            memory.LostSince is not null,
            spread > scene.Beam.HalfPowerWidth * EstimateLimits.WideSpread,
            memory.GainDb,
            memory.GainQuantity,
            scene.Age(memory.MarkedAt),
            memory.Notice);
    }
}
