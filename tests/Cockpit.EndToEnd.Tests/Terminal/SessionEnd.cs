using System.Diagnostics;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>How the only session of a folder ended: what is left to look at when the terminal is gone.</summary>
internal static class SessionEnd
{
    /// <summary>Waits until the session is closed, and looks why.</summary>
    public static async Task UntilAsync(string sessions, string reason, int patienceSeconds = 30)
    {
        long start = Stopwatch.GetTimestamp();
        while (Read(sessions) is not { EndedInOrder: true })
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(patienceSeconds), $"the session did not end: {Read(sessions)?.Envelopes[^1]}");
            await Task.Delay(100);
        }

        Assert.Equal(reason, Assert.IsType<SessionClosed>(Read(sessions)!.Envelopes[^1].Event).Reason);
    }

    /// <summary>The time of its last event.</summary>
    public static DateTimeOffset LastUtc(string sessions) => Read(sessions)!.Envelopes[^1].Utc;

    private static Recording? Read(string sessions) => Recording.ReadAll(Directory.GetDirectories(sessions).Single()).Value;
}
