using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Screen.Panels;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Tests.Journal;

/// <summary>What earlier versions of the program wrote opens, replays and is reviewed.</summary>
public sealed class EarlierJournalTests
{
    public static TheoryData<string> Journals => [.. Directory.GetFiles(Folder, "*.br").Select(path => Path.GetFileName(path))];

    private static string Folder => Path.Combine(AppContext.BaseDirectory, "data", "journals");

    [Theory]
    [MemberData(nameof(Journals))]
    public void A_journal_of_an_earlier_version_opens_replays_and_is_reviewed(string name)
    {
        Assert.True(Recording.ReadAll(Path.Combine(Folder, name)).Try(out Recording? recording, out ParseError? error), $"{error}");
        Assert.Empty(recording.Notes);
        Assert.True(recording.EndedInOrder);
        Assert.InRange(recording.Envelopes.Length, 1000, 2000);
        Fold fold = new();
        Snapshot? last = null;
        foreach (Envelope envelope in recording.Envelopes)
        {
            last = fold.Step(envelope);
        }

        Assert.Equal("PETREL 2", last?.Settings?.SatelliteName);
        Assert.NotNull(last?.Sky?.Now);
        string text = Page.Compose(new PageInput(last!, null, Replay: true, Help: false, Notice: null), PageMemory.Empty, 80, 24).Page.Text;
        Assert.Contains("PETREL 2", text, StringComparison.Ordinal);

        SessionReview? review = ReviewRecorder.Of(recording.Envelopes);
        Assert.InRange(review!.Lines.Sent, 250, 350);
        Assert.InRange(review.Lines.Received, 200, review.Lines.Sent);
        Assert.NotEmpty(review.Gaps);
    }
}
