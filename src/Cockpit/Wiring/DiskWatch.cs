using Cockpit.Devices.Files;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Looks before the pass, now and then, at the room on the disk that the session is written to.</summary>
/// <param name="bus">Where it is told.</param>
/// <param name="folder">A folder on that disk; it need not be there yet.</param>
/// <param name="neededBytes">What the pass will take.</param>
/// <param name="time">What the waiting goes by.</param>
public sealed class DiskWatch(IEventSink bus, string folder, long neededBytes, TimeProvider time)
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(20);

    private long? _last;

    /// <summary>Takes the next moment.</summary>
    public void Follow(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (snapshot.Readiness is null || (_last is { } last && time.GetElapsedTime(last) < Every))
        {
            return;
        }

        _last = time.GetTimestamp();

        // A disk of the network may take its time; nothing waits for it.
        _ = Task.Run(() => bus.Publish(Sources.Program, new DiskMeasured(folder, DiskSpace.FreeBeside(Path.Combine(folder, "journal")), neededBytes)));
    }
}
