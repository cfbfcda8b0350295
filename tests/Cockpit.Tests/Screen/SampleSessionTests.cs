using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Screen.Panels;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Tests.Screen;

/// <summary>Every session that is kept in the repository replays the same each time, to a screen that was looked at once.</summary>
public sealed class SampleSessionTests
{
    public static TheoryData<string> Samples()
    {
        TheoryData<string> samples = [];
        foreach (string folder in Directory.GetDirectories(Path.Combine(Repository.Root, "sessions"), "sample-*"))
        {
            samples.Add(Path.GetFileName(folder));
        }

        return samples;
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_session_replays_identically_to_its_golden_screen(string name)
    {
        Assert.True(Recording.ReadAll(Path.Combine(Repository.Root, "sessions", name)).Try(out Recording? recording, out ParseError? error), $"{error}");
        Assert.Empty(recording.Notes);
        (string first, Snapshot last) = Replay(recording);
        (string second, _) = Replay(recording);

        Assert.Equal(first, second);
        Golden.Check($"{name}-120x40", Page.Compose(new PageInput(last, null, Replay: true, Help: false, Notice: null), PageMemory.Empty, 120, 40).Page.Text);
    }

    private static (string Digest, Snapshot Last) Replay(Recording recording)
    {
        Fold fold = new();
        SnapshotDigest digest = new();
        Snapshot? last = null;
        foreach (Envelope envelope in recording.Envelopes)
        {
            last = fold.Step(envelope);
            digest.Add(last);
        }

        return (digest.Current(), last!);
    }
}
