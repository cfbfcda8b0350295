using Cockpit.Session.Computers.Estimate;
using Cockpit.Session.Computers.Guidance;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Pursuit;

/// <summary>What the steps of the pursuit remember.</summary>
/// <param name="Level">The level.</param>
/// <param name="Estimate">What is known about the dish.</param>
/// <param name="Expectation">What was expected.</param>
/// <param name="Guidance">What the hand is asked for.</param>
/// <param name="Carrier">The carrier beside its prediction.</param>
public sealed record PursuitMemory(LevelMemory Level, EstimateMemory Estimate, ExpectationMemory Expectation, GuidanceMemory Guidance, CarrierMemory Carrier)
{
    /// <summary>Before the first event.</summary>
    public static PursuitMemory Empty { get; } = new(LevelMemory.Empty, EstimateMemory.Empty, ExpectationMemory.Empty, GuidanceMemory.Empty, CarrierMemory.Empty);
}

/// <summary>The pursuit as seen after an event.</summary>
/// <param name="Link">The radio side.</param>
/// <param name="Aim">Where the dish is and must go.</param>
/// <param name="Notice">An answer to the operator; null when there is none.</param>
public sealed record PursuitNow(LinkNow Link, AimNow Aim, Message? Notice);

/// <summary>Level, estimate, expectation and guidance in their one order: each knows those before it. Reads no clock; belief and steersman change in place.</summary>
public static class PursuitComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static PursuitMemory Next(PursuitMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        memory = scene.Opens ? PursuitMemory.Empty : memory;
        LevelMemory level = LevelComputer.Next(memory.Level, scene);
        LevelNow levelNow = LevelComputer.Derive(level, scene);
        EstimateInput estimateInput = new(scene, levelNow);
        EstimateMemory estimate = EstimateComputer.Next(memory.Estimate, estimateInput);
        EstimateNow estimateNow = EstimateComputer.Derive(estimate, estimateInput);
        ExpectationMemory expectation = ExpectationComputer.Next(memory.Expectation, new ExpectationInput(scene, levelNow, estimateNow.ExpectedDb));
        GuidanceMemory guidance = GuidanceComputer.Next(memory.Guidance, new GuidanceInput(scene, estimateNow, levelNow.MeasuredDb));
        return new PursuitMemory(level, estimate, expectation, guidance, CarrierComputer.Next(memory.Carrier, scene));
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static PursuitNow Derive(PursuitMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        LevelNow level = LevelComputer.Derive(memory.Level, scene);
        EstimateNow estimate = EstimateComputer.Derive(memory.Estimate, new EstimateInput(scene, level));
        return new PursuitNow(
            ExpectationComputer.Derive(memory.Expectation, new ExpectationInput(scene, level, estimate.ExpectedDb)) with { Carrier = CarrierComputer.Derive(memory.Carrier, scene), TuneTo = CarrierComputer.TuneTo(scene) },
            GuidanceComputer.Derive(memory.Guidance, new GuidanceInput(scene, estimate, level.MeasuredDb)),
            Later(memory.Guidance.Notice, estimate.Notice));
    }

    private static Message? Later(Message? one, Message? other) => one is null || other?.SinceUtc > one.SinceUtc ? other : one;
}
