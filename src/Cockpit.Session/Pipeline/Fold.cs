using Cockpit.Session.Computers.Desk;
using Cockpit.Session.Computers.Feeds;
using Cockpit.Session.Computers.Messages;
using Cockpit.Session.Computers.Picture;
using Cockpit.Session.Computers.Pursuit;
using Cockpit.Session.Computers.Readiness;
using Cockpit.Session.Computers.Sensor;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Pipeline;

/// <summary>The state of a session as a fold over its events: one step for each envelope, one snapshot out.</summary>
/// <remarks>
/// Pure but for the memory it carries: the same envelopes give the same snapshots, bit for bit, live or in replay. A
/// <see cref="SessionOpened"/> starts every step afresh, so a player that jumps back plays from the first event again. A step
/// that throws leaves the whole memory as it was before the event. Not safe for two threads.
/// </remarks>
public sealed class Fold
{
    private FoldMemory _memory = FoldMemory.Empty;

    /// <summary>Folds one event.</summary>
    /// <returns>The moment after it.</returns>
    public Snapshot Step(Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        envelope = KeyAnswers.Resolve(envelope, _memory.Before, _memory.Cues.IsWarning);
        SkyMemory sky = SkyComputer.Next(_memory.Sky, envelope);
        Scene scene = Scene.Of(sky, envelope);
        FeedsMemory feeds = FeedComputer.Next(_memory.Feeds, scene);
        DeskMemory desk = DeskComputer.Next(_memory.Desk, scene);
        PursuitMemory pursuit = PursuitComputer.Next(_memory.Pursuit, scene);
        PursuitNow pursued = PursuitComputer.Derive(pursuit, scene);
        Snapshot draft = new(
            envelope.Sequence,
            envelope.Utc,
            envelope.Elapsed,
            sky.Settings,
            scene.Sky,
            pursued.Link,
            pursued.Aim,
            FeedComputer.Derive(feeds, scene),
            DeskComputer.Derive(desk),
            null,
            CuePlan.Silence,
            PictureComputer.Next(_memory.Before?.Picture, envelope.Event));

        DishSensorMemory sensor = DishSensorComputer.Next(_memory.Sensor, scene, pursuit.Estimate.Dish);
        draft = draft with { Sensor = DishSensorComputer.Derive(sensor, scene, pursuit.Estimate.Dish) };
        ReadinessMemory readiness = ReadinessComputer.Next(_memory.Readiness, scene);
        draft = draft with { Readiness = ReadinessComputer.Derive(readiness, scene, draft) };
        draft = draft with { Answer = KeyAnswers.Of(scene, draft, pursued.Notice, _memory.Cues.IsAlarming) };
        MessageMemory message = MessageComputer.Next(_memory.Message, new MessageInput(draft, pursued.Notice, scene));
        draft = draft with { Message = MessageComputer.Derive(message) };
        CueMemory cues = CueComputer.Next(_memory.Cues, draft, envelope);
        draft = draft with { Cues = CueComputer.Derive(cues) };
        _memory = new FoldMemory(sky, feeds, desk, pursuit, sensor, readiness, message, cues, draft);
        return draft;
    }

    /// <summary>What all steps remember; replaced as one.</summary>
    private sealed record FoldMemory(
        SkyMemory Sky,
        FeedsMemory Feeds,
        DeskMemory Desk,
        PursuitMemory Pursuit,
        DishSensorMemory Sensor,
        ReadinessMemory Readiness,
        MessageMemory Message,
        CueMemory Cues,
        Snapshot? Before)
    {
        public static FoldMemory Empty { get; } =
            new(SkyMemory.Empty, FeedsMemory.Empty, DeskMemory.Empty, PursuitMemory.Empty, DishSensorMemory.Empty, ReadinessMemory.Empty, MessageMemory.Empty, CueMemory.Empty, null);
    }
}
