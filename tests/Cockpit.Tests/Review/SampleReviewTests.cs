using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

/// <summary>The samples in the repository are what the documents say of them.</summary>
public sealed class SampleReviewTests
{
    [Fact]
    public void The_good_pass_is_good()
    {
        SessionReview review = Reviewed("sample-good-pass", SessionKind.Simulated);
        Assert.InRange((double)review.Lines.Received / review.Lines.Sent, 0.98, 1.0);
        Assert.InRange(review.Lines.Sent, 4000, 5000);
    }

    [Fact]
    public void The_bad_pass_lost_lines_by_at_least_five_causes()
    {
        SessionReview review = Reviewed("sample-bad-pass", SessionKind.Simulated);
        GapCause[] causes = [.. review.Gaps.GroupBy(gap => gap.Cause).Where(of => of.Key != GapCause.Unknown && of.Sum(gap => gap.Lines) >= 12).Select(of => of.Key)];
        Assert.True(causes.Length >= 5, string.Join(' ', causes));
        Assert.InRange((double)review.Lines.Received / review.Lines.Sent, 0.6, 0.9);
        Assert.NotEmpty(review.Advice);
    }

    [Fact]
    public void The_rehearsal_is_the_demo_with_its_truth()
    {
        SessionReview review = Reviewed("sample-rehearsal", SessionKind.Demo);
        Assert.InRange(review.Lines.Sent, 800, 1000);
    }

    [Fact]
    public void A_quarter_of_an_hour_at_ten_measurements_a_second_takes_under_15_MB_and_packed_under_2()
    {
        string folder = Directory.CreateTempSubdirectory("cockpit-size-").FullName;
        try
        {
            File.Copy(Path.Combine(Repository.Root, "sessions", "sample-good-pass", "session.jsonl.br"), Path.Combine(folder, "session.jsonl.br"));
            Assert.True(SessionPacker.Unpack(folder, replace: false).Try(out PackedFile unpacked, out ParseError? error), $"{error}");
            const double share = 793.1 / 900.0;
            Assert.InRange(unpacked.ToBytes / share / 1e6, 3.0, 15.0);
            Assert.InRange(unpacked.FromBytes / share / 1e6, 0.2, 2.0);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static SessionReview Reviewed(string name, SessionKind kind)
    {
        Assert.True(Recording.ReadAll(Path.Combine(Repository.Root, "sessions", name)).Try(out Recording? recording, out ParseError? error), $"{error}");
        Assert.True(recording.IsUndamaged && recording.EndedInOrder);
        Assert.Equal(kind, Assert.IsType<SessionOpened>(recording.Envelopes[0].Event).Settings.Kind);
        return ReviewRecorder.Of(recording.Envelopes)!;
    }
}
