using Cockpit.Core.Steering;
using Cockpit.Session.Computers.Estimate;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>What the guidance depends on besides its own past.</summary>
/// <param name="Scene">The event and its moment.</param>
/// <param name="Estimate">What is known about the dish after the event.</param>
/// <param name="MeasuredDb">The level, smoothed; null when it is absent.</param>
public sealed record GuidanceInput(Scene Scene, EstimateNow Estimate, double? MeasuredDb);

/// <summary>What the hand is asked for: which way, how far, when. Reads no clock.</summary>
/// <remarks>The decision is <see cref="Steersman"/>'s; here it meets keys, words and UTC. Where the dish is, is not decided here.</remarks>
public static class GuidanceComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static GuidanceMemory Next(GuidanceMemory memory, GuidanceInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        Scene scene = input.Scene;
        memory = scene.Opens ? Opened(input) : memory;
        if (scene.Age(memory.PeakAskedAt) > GuidanceLimits.PeakAskedFor)
        {
            memory = memory with { PeakAskedAt = null };
        }

        if (scene.Age(memory.NoticeAt) > GuidanceLimits.NoticeFor)
        {
            memory = memory with { Notice = null };
        }

        if (memory.Steersman is { } steersman && input.Estimate.Closed)
        {
            Call? before = steersman.Open;
            steersman.Advance();
            memory = steersman.Open is { } call && call.At != before?.At ? memory with { AskedAt = scene.Elapsed } : memory;
        }

        return Press(memory, scene);
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static AimNow Derive(GuidanceMemory memory, GuidanceInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        return new AimView(memory, input).Now();
    }

    private static GuidanceMemory Opened(GuidanceInput input) => input.Estimate.Dish is { } dish
        ? GuidanceMemory.Empty with { Steersman = new Steersman(dish, new SteeringCost()), Overhead = OverheadTurn.Of(input.Scene, dish) }
        : GuidanceMemory.Empty;

    private static GuidanceMemory Press(GuidanceMemory memory, Scene scene) => scene.Key switch
    {
        OperatorKey.Search => memory with { PeakAskedAt = memory.PeakAskedAt is null ? scene.Elapsed : null },
        OperatorKey.Peaked => Peaked(memory),
        OperatorKey.Moved => Moved(memory, scene),
        OperatorKey.NotMoved => NotMoved(memory, scene),
        _ => memory,
    };

    private static GuidanceMemory Peaked(GuidanceMemory memory)
    {
        memory.Steersman?.SetUp();
        return memory with { PeakAskedAt = null };
    }

    private static GuidanceMemory Moved(GuidanceMemory memory, Scene scene)
    {
        if (memory.Steersman is { } steersman && steersman.Done())
        {
            return memory with { AskedAt = scene.Elapsed, Notice = null };
        }

        if (scene.Sky?.Phase is PassPhase.Waiting or PassPhase.Ready || memory.Steersman is { SettingUp: true })
        {
            memory.Steersman?.SetUp();
            return Say(memory, scene, "Set up at the first hold.");
        }

        return scene.Age(memory.AskedAt) <= GuidanceLimits.ConfirmWithin
            ? memory
            : Say(memory, scene, "Nothing was called: hold. Press Enter when the signal is best.", refusal: true);
    }

    private static GuidanceMemory NotMoved(GuidanceMemory memory, Scene scene)
    {
        if (memory is not { Steersman: { } steersman, AskedAt: not null })
        {
            return Say(memory, scene, "There is no nudge to take back.", refusal: true);
        }

        steersman.TakenBack();
        return memory with { AskedAt = null, Notice = null };
    }

    private static GuidanceMemory Say(GuidanceMemory memory, Scene scene, string text, bool refusal = false) =>
        memory with { Notice = new Message(text, refusal ? MessageWeight.Caution : MessageWeight.Advisory, scene.Utc) { IsRefusal = refusal }, NoticeAt = scene.Elapsed };
}
