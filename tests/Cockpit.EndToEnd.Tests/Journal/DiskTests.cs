using System.Diagnostics;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Feeds;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Journal;

public sealed class DiskTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-disk-");
    private readonly EventWait _events = new();

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task A_session_is_a_folder_named_by_time_and_satellite_and_reads_back_whole()
    {
        SessionFolder first = Created(_folder.FullName);
        SessionFolder second = Created(_folder.FullName);
        Assert.Equal(Path.Combine(_folder.FullName, "2026-11-25T101500Z-petrel-2"), first.Path);
        Assert.Equal(first.Path + "-2", second.Path);
        await using (JournalWriter writer = Started(first))
        {
            Append(writer, 1, 1000);
        }

        Recording read = Read(first.Path);
        Assert.Equal(1000, read.Envelopes.Length);
        Assert.Empty(read.Notes);
        Assert.Equal(read.Envelopes.AsEnumerable(), Read(first.JournalPath).Envelopes.AsEnumerable());
    }

    [Fact]
    public async Task A_journal_can_be_read_while_it_is_written()
    {
        SessionFolder folder = Created(_folder.FullName);
        await using JournalWriter writer = Started(folder);
        writer.Append(Envelope(1, new OperatorPressed(OperatorKey.Peaked)));
        long start = Stopwatch.GetTimestamp();
        while (Recording.ReadAll(folder.Path).Value is not { Envelopes.Length: 1 })
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(10), "the event did not come to the file");
            await Task.Delay(10, CancellationToken.None);
        }
    }

    [Fact]
    public void Where_nothing_can_be_written_one_sentence_says_so()
    {
        string file = Path.Combine(_folder.FullName, "file");
        File.WriteAllText(file, "");
        string root = Path.Combine(file, "sessions");
        string? sentence = SessionFolder.Create(root, Start, "PETREL 2").Error?.ToString();
        Assert.StartsWith($"{root}: the session cannot be written here (", sentence, StringComparison.Ordinal);
        Assert.EndsWith("); choose another folder with --sessions", sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nowhere", "{0}: there is no such session; give the folder of a session")]
    [InlineData("", "{0}: this folder is not a session: it has no session.jsonl; give the folder of a session")]
    public void What_is_no_session_is_told_with_one_sentence(string name, string sentence)
    {
        string path = Path.Combine(_folder.FullName, name);
        Assert.Equal(sentence.Replace("{0}", path, StringComparison.Ordinal), Recording.ReadAll(path).Error?.ToString());
    }

    // A real full disk where the right to mount one is there (root), else a file that takes only so many bytes.
    [Fact]
    public async Task On_a_full_disk_the_session_goes_on_says_so_and_writes_the_rest_when_there_is_room()
    {
        using SmallDisk disk = new(Path.Combine(_folder.FullName, "disk"));
        SessionFolder folder = Created(disk.Path);
        JournalPump pump = new(disk.Open(folder.JournalPath), _events, TimeProvider.System, "0.1.0");
        pump.Open();
        await using (JournalWriter writer = new(pump, () => throw new IOException("nothing is to be rescued")))
        {
            Append(writer, 1, 1000);
            string trouble = Assert.IsType<string>(_events.Next<JournalChanged>().Trouble);
            Assert.Equal($"{folder.JournalPath} cannot be written: No space left on device; tried again every second", trouble);
            Append(writer, 1001, 10);
            disk.Grow();
            Assert.Null(_events.Next<JournalChanged>().Trouble);
        }

        Recording read = Read(folder.Path);
        Assert.Equal(1010, read.Envelopes.Length);
        Assert.Empty(read.Notes);
    }

    private static SessionFolder Created(string root)
    {
        Assert.True(SessionFolder.Create(root, Start, "PETREL 2").Try(out SessionFolder? folder, out ParseError? error), error?.ToString());
        return folder;
    }

    private JournalWriter Started(SessionFolder folder)
    {
        Assert.True(folder.StartJournal(_events, TimeProvider.System, "0.1.0").Try(out JournalWriter? writer, out ParseError? error), error?.ToString());
        return writer;
    }

    private static Recording Read(string path)
    {
        Assert.True(Recording.ReadAll(path).Try(out Recording? read, out ParseError? error), error?.ToString());
        return read;
    }

    private static void Append(JournalWriter writer, int first, int count)
    {
        for (int number = first; number < first + count; number++)
        {
            writer.Append(Envelope(number, new Ticked()));
        }
    }

    private static Envelope Envelope(int number, SessionEvent fact)
    {
        TimeSpan elapsed = TimeSpan.FromMilliseconds(100 * number);
        return new Envelope(number, elapsed, Start + elapsed, "clock", fact);
    }
}
