using Cockpit.Core.Estimate;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What the estimate depends on besides its own past.</summary>
/// <param name="Scene">The event and its moment.</param>
/// <param name="Level">The level after the event.</param>
public sealed record EstimateInput(Scene Scene, LevelNow Level);

/// <summary>What is known at one moment.</summary>
/// <param name="Dish">The belief; null without a pass.</param>
/// <param name="Closed">Whether this event closed a block of the level.</param>
/// <param name="ExpectedDb">What a well-pointed dish should show now, as the receiver reads it; null without pass or level, and below the horizon.</param>
/// <param name="SinceMark">Real time since the last mark that was believed; null without one.</param>
/// <param name="Fine">The best level of late and the level now; null without a level.</param>
/// <param name="Notice">An answer to the operator; null when there is none.</param>
public sealed record EstimateNow(DishEstimate? Dish, bool Closed, double? ExpectedDb, TimeSpan? SinceMark, PeakNote? Fine, Message? Notice);

/// <summary>Where the dish is, without a pointing sensor: what the level and the operator's keys say about it. Reads no clock.</summary>
/// <remarks>
/// The belief of <see cref="DishEstimate"/> takes the level in blocks of half a second of session time; moves that are called are
/// told to it by the guidance. What the hand is to do next is not decided here.
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
        Scene scene = input.Scene;
        memory = scene.Opens ? Opened(scene) : memory;
        if (memory.Dish is not { } dish || scene.Plan is not { } plan)
        {
            return memory;
        }

        if (scene.Envelope.Event is ClockCorrected)
        {
            memory = memory with { Zero = scene.Utc - scene.Elapsed };
            dish.Follow(DishModel.TableOf(scene.Settings, plan, memory.Zero));
        }

        memory = memory with { Closed = dish.Advance(scene.Elapsed.TotalSeconds) };
        switch (scene.Envelope.Event)
        {
            case SignalMeasured { Sample: var sample }:
                DishModel.Hear(dish, sample);
                break;
            case PointingMeasured { Sample: var said }:
                DishModel.Sense(dish, said, scene.Settings, scene.Elapsed.TotalSeconds);
                break;
            case DirectionKnown known:
                dish.Seen(scene.Elapsed.TotalSeconds, known.Azimuth.Degrees, known.Elevation?.Degrees, known.Spread.Degrees);
                break;
        }

        memory = EstimateMarks.Remember(memory, input);
        return scene.Age(memory.NoticeAt) > EstimateLimits.NoticeFor ? memory with { Notice = null } : memory;
    }

    /// <summary>What the later steps see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static EstimateNow Derive(EstimateMemory memory, EstimateInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        bool up = input.Level.ShapeDb is not null;
        double? expected = memory.Dish is { HasHeard: true } dish && up ? dish.Reading(dish.Belief.ExpectedDb) : null;
        PeakNote? fine = memory.BestDb is { } best && input.Level is { IsFresh: true, MeasuredDb: { } now } ? new PeakNote(Math.Max(best, now), now) : null;
        return new EstimateNow(memory.Dish, memory.Closed, expected, input.Scene.Age(memory.MarkedAt), fine, memory.Notice);
    }

    private static EstimateMemory Opened(Scene scene)
    {
        DateTimeOffset zero = scene.Utc - scene.Elapsed;
        return scene.Plan is { } plan
            ? EstimateMemory.Empty with { Dish = DishModel.Of(scene.Settings, DishModel.TableOf(scene.Settings, plan, zero), scene.Beam), Zero = zero }
            : EstimateMemory.Empty;
    }
}
