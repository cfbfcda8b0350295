using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>Tells before a pass what is right, what is wrong and what nobody knows yet; nothing of it holds the pass up. Pure.</summary>
public static class ReadinessComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static ReadinessMemory Next(ReadinessMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        return scene.Envelope.Event switch
        {
            SessionOpened => ReadinessMemory.Empty,
            DiskMeasured disk => memory with { Disk = disk },
            OperatorPressed { Key: OperatorKey.TestSound } => memory with { Sound = SoundTest.Played },
            OperatorPressed { Key: OperatorKey.Heard } => memory with { Sound = SoundTest.Heard },
            OperatorPressed { Key: OperatorKey.NotHeard } => memory with { Sound = SoundTest.NotHeard },
            OperatorPressed { Key: OperatorKey.AnotherDirection } => memory with { Direction = memory.Direction + 1 },
            _ => memory,
        };
    }

    /// <summary>What is known of everything; null from AOS on, and where there is no pass.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    /// <param name="draft">What the other steps found.</param>
    public static ReadinessNow? Derive(ReadinessMemory memory, Scene scene, Snapshot draft)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        ArgumentNullException.ThrowIfNull(draft);
        if (scene.Sky is not { Phase: PassPhase.Waiting or PassPhase.Ready } sky)
        {
            return null;
        }

        FeedNow? signal = draft.Feeds.FirstOrDefault(feed => feed.Role == FeedRole.Signal);
        DirectionsNow? directions = SensorReadiness.Directions(memory, scene, draft);
        return new ReadinessNow(
            [
                SignalReadiness.Feed(signal),
                SignalReadiness.Noise(signal, draft.Link),
                DeskReadiness.Clock(draft.Desk, scene.Settings),
                SkyReadiness.Elements(sky, scene.Settings),
                DeskReadiness.Disk(memory.Disk, signal?.Recording, draft.Desk),
                DeskReadiness.Sound(memory.Sound, draft.Desk),
                SkyReadiness.Sun(sky, scene.Beam),
                SkyReadiness.Skyline(sky, scene.Settings),
                DeskReadiness.Settings(scene.Settings),
                .. SensorReadiness.Of(draft, directions) is { } sensor ? [sensor] : Array.Empty<ReadinessItem>(),
            ],
            memory.Sound == SoundTest.Played,
            directions);
    }
}
