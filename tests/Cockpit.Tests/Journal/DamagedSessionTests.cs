using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Journal;

/// <summary>A session damaged in every way that files are damaged: reviewed as far as it goes, the rest named, and mended beside it.</summary>
public sealed class DamagedSessionTests : IDisposable
{
    private static readonly string[] Lines =
        [.. File.ReadAllText(Path.Combine(Repository.Root, "sessions", "sample-petrel-2", "session.jsonl")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line + "\n")];

    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("cockpit-mend-");

    private string Folder => Path.Combine(_root.FullName, "pass");

    public void Dispose() => _root.Delete(recursive: true);

    // Each way with a word of what has to be told of it.
    public static TheoryData<string, string> Ways => new()
    {
        { "cut off in a line", "cut off in the middle" },
        { "bad checksum", "1 place is damaged" },
        { "broken lines", "3 places are damaged" },
        { "missing lines", "1 hole is in the numbers" },
        { "doubled lines", "events stand a second time" },
        { "swapped parts", "out of order" },
        { "binary rubbish", "damaged" },
        { "zeros", "damaged" },
        { "header lost", "the header, is lost" },
        { "header replaced", "the header, is lost" },
        { "opening lost", "the event that opens the session is lost" },
        { "first half lost", "the event that opens the session is lost" },
        { "a line without end", "damaged" },
        { "wild time", "a time that does not fit" },
        { "wild number", "hole" },
        { "wild value", "a value that cannot be" },
        { "two sessions in one", "a second time or out of order" },
    };

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task A_damaged_session_is_explained_saved_beside_and_reviewed_as_far_as_it_goes(string way, string told)
    {
        byte[] damaged = Damaged(way);
        Write(damaged);
        CommandRun run = await CommandRun.Of("sessions", "mend", Folder);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains(told, run.Output, StringComparison.Ordinal);
        Assert.Equal(damaged, await File.ReadAllBytesAsync(Path.Combine(Folder, "session.jsonl")));
        Assert.Equal(["pass", "pass-mended"], Directory.GetFileSystemEntries(_root.FullName).Select(Path.GetFileName).Order(StringComparer.Ordinal));

        Recording before = Read(Folder);
        Recording after = Read(Folder + "-mended");
        Assert.Empty(after.Notes);
        Assert.Equal(before.Envelopes.Select((e, i) => (i + 1L, e.Elapsed, e.Utc, e.Event.GetType())), after.Envelopes.Select(e => (e.Sequence, e.Elapsed, e.Utc, e.Event.GetType())));
        AssertReviewed(after);
    }

    [Fact]
    public async Task A_packed_session_that_was_cut_off_is_mended_too()
    {
        Write(Encoding.UTF8.GetBytes(string.Concat(Lines)));
        Assert.Null(SessionPacker.Pack(Folder, replace: true).Error);
        string packed = Path.Combine(Folder, "session.jsonl.br");
        await File.WriteAllBytesAsync(packed, (await File.ReadAllBytesAsync(packed))[..^4000]);
        CommandRun run = await CommandRun.Of("sessions", "mend", packed);
        Assert.Equal(0, run.ExitCode);
        Recording after = Read(Folder + "-mended");
        Assert.InRange(after.Envelopes.Length, 500, Lines.Length - 10);
        AssertReviewed(after);
    }

    [Fact]
    public async Task What_is_not_damaged_is_not_mended_and_a_second_mending_gets_its_own_folder()
    {
        Write(Encoding.UTF8.GetBytes(string.Concat(Lines)));
        CommandRun run = await CommandRun.Of("sessions", "mend", Folder);
        Assert.Equal((0, "nothing is damaged, so there is nothing to mend\n"), (run.ExitCode, run.Output));
        Write(Damaged("bad checksum"));
        Assert.Equal(0, (await CommandRun.Of("sessions", "mend", Folder)).ExitCode);
        Assert.Equal(0, (await CommandRun.Of("sessions", "mend", Folder)).ExitCode);
        Assert.Equal(["pass", "pass-mended", "pass-mended-2"], Directory.GetFileSystemEntries(_root.FullName).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Write(Encoding.UTF8.GetBytes("rubbish\n"));
        CommandRun none = await CommandRun.Of("sessions", "mend", Folder);
        Assert.Equal((2, ""), (none.ExitCode, none.Output));
        Assert.Contains("not a session", none.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_session_damaged_anywhere_is_reviewed_as_far_as_it_goes_and_never_throws()
    {
        Xoshiro256 chance = new(seed: 5);
        byte[] good = Encoding.UTF8.GetBytes(string.Concat(Lines));
        int reviewed = 0;
        for (int round = 0; round < 6; round++)
        {
            byte[] bytes = [.. good[..(good.Length - chance.NextBelow(good.Length / 2))]];
            for (int change = 0; change < 1 << (2 * round); change++)
            {
                bytes[chance.NextBelow(bytes.Length)] = (byte)chance.NextBelow(256);
            }

            if (Journals.Problem(bytes) is null)
            {
                Recording read = Journals.Read(bytes);
                reviewed += ReviewRecorder.Of(read.Envelopes) is null ? 0 : 1;
                Assert.False(read.IsUndamaged);
                Assert.NotEmpty(DamageReport.Of(read));
            }
        }

        Assert.InRange(reviewed, 2, 6);
    }

    private static void AssertReviewed(Recording read)
    {
        SessionReview? review = ReviewRecorder.Of(read.Envelopes);
        Assert.Equal(read.Envelopes.Any(e => e.Event is SessionOpened), review is not null);
        if (review is not null)
        {
            Assert.InRange(review.Lines.Sent, 1, 300);
        }
    }

    private static byte[] Damaged(string way)
    {
        List<string> lines = [.. Lines];
        switch (way)
        {
            case "cut off in a line": lines[^1] = lines[^1][..30]; break;
            case "bad checksum": lines[400] = lines[400].Replace("\"source\"", "\"sauce\"", StringComparison.Ordinal); break;
            case "broken lines": lines[100] = lines[100][..20] + "\n"; lines[300] = "\n{}\n"[1..]; lines[500] = lines[500][40..]; break;
            case "missing lines": lines.RemoveRange(200, 150); break;
            case "doubled lines": lines.InsertRange(300, lines.GetRange(280, 20)); break;
            case "swapped parts": lines = [.. lines[..400], .. lines[600..], .. lines[400..600]]; break;
            case "zeros": lines.Insert(300, new string('\0', 100_000)); break;
            case "header lost": lines.RemoveAt(0); break;
            case "header replaced": lines[0] = "PK\u0003\u0004 not a journal\n"; break;
            case "opening lost": lines.RemoveAt(1); break;
            case "first half lost": lines.RemoveRange(0, 400); break;
            case "a line without end": lines.Insert(400, new string('x', JournalReader.LongestLine + 5) + "\n"); break;
            case "wild time": lines[300] = Journals.Checked(System.Text.RegularExpressions.Regex.Replace(lines[300], "\"elapsed_s\":[0-9.]+", "\"elapsed_s\":90000", System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(1))); break;
            case "wild number": lines[300] = Journals.Checked(lines[300].Replace("\"seq\":300,", "\"seq\":7000000,", StringComparison.Ordinal)); break;
            case "wild value":
                int wild = lines.FindIndex(200, line => line.Contains("\"snr_db\":1", StringComparison.Ordinal));
                lines[wild] = Journals.Checked(lines[wild].Replace("\"snr_db\":1", "\"snr_db\":99991", StringComparison.Ordinal));
                break;
            case "two sessions in one": lines = [.. lines[..500], .. lines[1..400]]; break;
            case "binary rubbish":
                byte[] rubbish = new byte[5000];
                Xoshiro256 chance = new(seed: 3);
                for (int i = 0; i < rubbish.Length; i++)
                {
                    rubbish[i] = (byte)chance.NextBelow(256);
                }

                return [.. Encoding.UTF8.GetBytes(string.Concat(lines[..350])), .. rubbish, .. Encoding.UTF8.GetBytes(string.Concat(lines[360..]))];
            default: throw new ArgumentOutOfRangeException(nameof(way), way, "not a way");
        }

        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }

    private void Write(byte[] journal)
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllBytes(Path.Combine(Folder, "session.jsonl"), journal);
    }

    private static Recording Read(string folder)
    {
        Assert.True(Recording.ReadAll(folder).Try(out Recording? recording, out ParseError? error), $"{error}");
        return recording;
    }
}
