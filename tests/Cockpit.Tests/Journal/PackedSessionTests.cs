using System.IO.Compression;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Journal;

public sealed class PackedSessionTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-packed-");

    private string Plain => Path.Combine(_folder.FullName, "session.jsonl");

    private string Packed => Plain + ".br";

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void What_is_packed_reads_the_same_and_unpacks_to_the_same_bytes()
    {
        byte[] text = Encoding.UTF8.GetBytes(string.Concat(Journals.Lines(2000)));
        File.WriteAllBytes(Plain, text);
        var written = new DateTime(2026, 11, 25, 10, 30, 0, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(Plain, written);
        Recording before = Read();
        Assert.True(SessionPacker.Pack(_folder.FullName, replace: true).Try(out PackedFile packed, out ParseError? error), $"{error}");
        Assert.Equal([Packed], Directory.GetFileSystemEntries(_folder.FullName));
        Assert.Equal((text.Length, new FileInfo(Packed).Length), (packed.FromBytes, packed.ToBytes));
        Assert.InRange(packed.ToBytes, 1, text.Length / 8);
        Assert.Equal(written, File.GetLastWriteTimeUtc(Packed));
        Recording after = Read();
        Assert.Equal(before.Envelopes.AsEnumerable(), after.Envelopes);
        Assert.Equal(before.Header, after.Header);
        Assert.Empty(after.Notes);
        Assert.Null(SessionPacker.Unpack(_folder.FullName, replace: false).Error);
        Assert.Equal(text, File.ReadAllBytes(Plain));
        Assert.True(File.Exists(Packed));
    }

    [Fact]
    public void A_packed_session_that_is_cut_off_or_changed_reads_as_far_as_it_goes_and_never_throws()
    {
        File.WriteAllText(Plain, string.Concat(Journals.Lines(3000)));
        Assert.Null(SessionPacker.Pack(Plain, replace: true).Error);
        byte[] good = File.ReadAllBytes(Packed);
        int read = 0;
        for (int tenth = 0; tenth < 10; tenth++)
        {
            File.WriteAllBytes(Packed, good[..(good.Length * tenth / 10)]);
            read = Math.Max(read, AssertDamaged());
            File.WriteAllBytes(Packed, good[..^(tenth + 1)]);
            AssertDamaged();
            byte[] changed = [.. good];
            changed[good.Length * tenth / 10] ^= 0x5a;
            File.WriteAllBytes(Packed, changed);
            AssertDamaged();
        }

        Assert.InRange(read, 1000, 2999);
    }

    [Fact]
    public void Neither_packing_nor_unpacking_writes_over_anything_or_takes_what_is_no_session()
    {
        Assert.Contains("no such session", $"{SessionPacker.Pack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        Assert.Contains("no packed session", $"{SessionPacker.Unpack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        File.WriteAllText(Plain, "hello\n");
        Assert.Contains("not a session", $"{SessionPacker.Pack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        File.WriteAllText(Plain, string.Concat(Journals.Lines(3000)));
        File.WriteAllText(Packed, "mine");
        Assert.Contains("session.jsonl.br is there already", $"{SessionPacker.Pack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(Packed));
        File.Delete(Packed);
        Assert.Null(SessionPacker.Pack(_folder.FullName, replace: false).Error);
        Assert.Contains("session.jsonl is there already", $"{SessionPacker.Unpack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        File.Delete(Plain);
        Assert.Contains("packed already", $"{SessionPacker.Pack(_folder.FullName, replace: false).Error}", StringComparison.Ordinal);
        File.WriteAllBytes(Packed, File.ReadAllBytes(Packed)[..^30]);
        Assert.Contains("damaged or cut off", $"{SessionPacker.Unpack(_folder.FullName, replace: true).Error}", StringComparison.Ordinal);
        Assert.Equal([Packed], Directory.GetFileSystemEntries(_folder.FullName));
    }

    [Fact]
    public void A_few_packed_bytes_that_stand_for_many_are_unpacked_up_to_the_limit_only()
    {
        using MemoryStream packed = new();
        using (BrotliStream packing = new(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            packing.Write(Encoding.UTF8.GetBytes(string.Concat(Journals.Lines(5))));
            byte[] same = new byte[1024 * 1024];
            same.AsSpan().Fill((byte)'x');
            for (int i = 0; i < 64; i++)
            {
                packing.Write(same);
            }
        }

        Assert.InRange(packed.Length, 1, 10_000);
        packed.Position = 0;
        Assert.True(JournalReader.Open(new UnpackingStream(packed, 3 * 1024 * 1024), "bomb").Try(out JournalReader? reader, out ParseError? error), $"{error}");
        using (reader)
        {
            Assert.True(Recording.ReadAll(reader, "bomb").Try(out Recording? recording, out error), $"{error}");
            Assert.Equal(5, recording.Envelopes.Length);
            Assert.Contains(recording.Notes, note => note.Text.Contains("more than 3145728 bytes", StringComparison.Ordinal));
            Assert.False(recording.IsUndamaged);
        }
    }

    [Fact]
    public async Task Check_review_and_the_list_take_a_packed_session_and_the_latest_is_found()
    {
        string folder = Directory.CreateDirectory(Path.Combine(_folder.FullName, "2026-11-25T103655Z-petrel-2")).FullName;
        File.Copy(Path.Combine(Repository.Root, "sessions", "sample-petrel-2", "session.jsonl"), Path.Combine(folder, "session.jsonl"));
        CommandRun plain = await CommandRun.Of("check", "session", folder);
        CommandRun packing = await CommandRun.Of("sessions", "pack", folder, "--replace");
        Assert.Equal((0, ""), (packing.ExitCode, packing.Error));
        Assert.False(File.Exists(Path.Combine(folder, "session.jsonl")));
        CommandRun packed = await CommandRun.Of("check", "session", folder);
        Assert.Equal((plain.ExitCode, plain.Output), (packed.ExitCode, packed.Output));
        Assert.Equal(packed.Output, (await CommandRun.Of("check", "session", Path.Combine(folder, "session.jsonl.br"))).Output);
        Assert.Contains("lines", (await CommandRun.Of("review", "--sessions", _folder.FullName)).Output, StringComparison.Ordinal);
        Assert.Contains("petrel-2", (await CommandRun.Of("sessions", "--sessions", _folder.FullName, "--format", "csv")).Output, StringComparison.Ordinal);
        CommandRun unpacking = await CommandRun.Of("sessions", "unpack", folder, "--replace");
        Assert.Equal(0, unpacking.ExitCode);
        Assert.Equal([Path.Combine(folder, "session.jsonl")], Directory.GetFileSystemEntries(folder));
        CommandRun nowhere = await CommandRun.Of("sessions", "unpack", folder, Path.Combine(folder, "no"));
        Assert.Equal((2, ""), (nowhere.ExitCode, nowhere.Output));
        Assert.Equal(2, nowhere.Error.TrimEnd().Split('\n').Length);
    }

    private Recording Read()
    {
        Assert.True(Recording.ReadAll(_folder.FullName).Try(out Recording? recording, out ParseError? error), $"{error}");
        return recording;
    }

    private int AssertDamaged()
    {
        Parsed<Recording> read = Recording.ReadAll(_folder.FullName);
        if (read.Value is not { } recording)
        {
            Assert.NotNull(read.Error);
            return 0;
        }

        Assert.False(recording.IsUndamaged);
        Assert.All(recording.Envelopes, envelope => Assert.Equal(Journals.Tick((int)envelope.Sequence), envelope));
        return recording.Envelopes.Length;
    }
}
