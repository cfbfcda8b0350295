using Cockpit.Core.Chance;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Session.Review;
using Cockpit.Wiring;

namespace Cockpit.Tests.Review;

/// <summary>A review from what was kept is the review from the journal, and what does not hold any more is not taken.</summary>
public sealed class ReviewLogFileTests : IDisposable
{
    private const string Program = "program 1";

    private static readonly ReviewLog Log = Made();

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-kept-");

    public ReviewLogFileTests()
    {
        foreach (FileInfo file in new DirectoryInfo(Sample).EnumerateFiles("session.*"))
        {
            file.CopyTo(Path.Combine(_folder.FullName, file.Name));
        }
    }

    private static string Sample => Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    private string Kept => Path.Combine(_folder.FullName, ReviewLogFile.FileName);

    public void Dispose() => _folder.Delete(recursive: true);

    private static ReviewLog Made() =>
        Recording.ReadAll(Sample).Try(out Recording? recording, out _) && ReviewRecorder.LogOf(recording.Envelopes) is { } log ? log : throw new InvalidOperationException();

    [Fact]
    public void What_was_kept_comes_back_to_the_bit()
    {
        ReviewLogFile.Write(_folder.FullName, Program, Log);
        ReviewLog? back = ReviewLogFile.Read(_folder.FullName, Program);
        Assert.NotNull(back);
        Assert.True(Log.Blocks.SequenceEqual(back.Blocks) && Log.Frames.SequenceEqual(back.Frames) && Log.Offsets.SequenceEqual(back.Offsets));
        Assert.True(Log.Calls.SequenceEqual(back.Calls) && Log.Keys.SequenceEqual(back.Keys) && Log.PlannedHolds.SequenceEqual(back.PlannedHolds));
        Assert.Equal((Log.Pass, Log.BeamWidth, Log.Clock), (back.Pass, back.BeamWidth, back.Clock));
        Assert.Equal(ReviewJson.Of(Reviewer.Make(Log)!), ReviewJson.Of(Reviewer.Make(back)!));
        Assert.Equal(ReviewSummary.Lines(Reviewer.Make(Log)!), ReviewSummary.Lines(Reviewer.Make(back)!));
    }

    [Fact]
    public void Another_program_or_another_journal_makes_its_own()
    {
        ReviewLogFile.Write(_folder.FullName, Program, Log);
        Assert.Null(ReviewLogFile.Read(_folder.FullName, "program 2"));
        FileInfo journal = new(SessionFolder.JournalIn(_folder.FullName)!);
        journal.LastWriteTimeUtc += TimeSpan.FromSeconds(1);
        Assert.Null(ReviewLogFile.Read(_folder.FullName, Program));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(10)]
    [InlineData(2000)]
    public void One_that_was_cut_is_none(int bytes)
    {
        ReviewLogFile.Write(_folder.FullName, Program, Log);
        byte[] whole = File.ReadAllBytes(Kept);
        Assert.True(whole.Length > bytes);
        File.WriteAllBytes(Kept, whole[..bytes]);
        Assert.Null(ReviewLogFile.Read(_folder.FullName, Program));
    }

    [Fact]
    public void One_that_is_rubbish_is_none()
    {
        Xoshiro256 chance = new(5);
        byte[] rubbish = [.. Enumerable.Range(0, 5000).Select(_ => (byte)chance.NextBelow(256))];
        File.WriteAllBytes(Kept, rubbish);
        Assert.Null(ReviewLogFile.Read(_folder.FullName, Program));
        Assert.True(KeptReview.Of(_folder.FullName).Try(out KeptReview? kept, out _));
        Assert.Equal(Log.Blocks.Length, kept.Log?.Blocks.Length);
    }

    [Fact]
    public void Where_it_cannot_be_kept_nothing_happens()
    {
        Directory.CreateDirectory(Kept);
        ReviewLogFile.Write(_folder.FullName, Program, Log);
        ReviewLogFile.Write(Path.Combine(_folder.FullName, "none"), Program, Log);
        Assert.Null(ReviewLogFile.Read(_folder.FullName, Program));
        Assert.Single(_folder.EnumerateFiles());
    }
}
