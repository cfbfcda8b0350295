using System.Text;
using Cockpit.Devices.Journal;
using Cockpit.Screen.Panels;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;
using Cockpit.Tests.Commands;
using Xunit.Abstractions;

namespace Cockpit.Tests.Journal;

/// <summary>Sessions whose checksums are right and whose contents are not: they cost the wild line, not the session.</summary>
public sealed class WildSessionTests(ITestOutputHelper output) : IDisposable
{
    private const int Sessions = 200;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-wild-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void Two_hundred_wild_sessions_give_every_undamaged_event_and_a_screen_that_is_not_blank()
    {
        int notes = 0;
        for (ulong seed = 1; seed <= Sessions; seed++)
        {
            WildSession wild = WildSession.Make(seed);
            Recording read = Journals.Read(Encoding.UTF8.GetBytes(wild.Text));
            notes += read.Notes.Length;
            Dictionary<long, SessionEvent> events = read.Envelopes.ToDictionary(envelope => envelope.Sequence, envelope => envelope.Event);
            foreach (Envelope good in wild.Untouched)
            {
                Assert.True(events.TryGetValue(good.Sequence, out SessionEvent? found), $"seed {seed}: event {good.Sequence} was not read");
                AssertSame(good.Event, found);
            }

            AssertShows(read, seed);
            if (seed % 20 == 0)
            {
                // A review of it, or none; it never throws.
                Assert.True(ReviewRecorder.Of(read.Envelopes) is null or { Lines.Sent: >= 0 });
            }
        }

        output.WriteLine($"{Sessions} sessions, {notes} notes");
        Assert.InRange(notes, Sessions / 2, Sessions * 20);
    }

    [Fact]
    public async Task The_check_of_a_wild_session_has_an_exit_code_and_no_stack_trace()
    {
        string path = Path.Combine(_folder.FullName, "session.jsonl");
        for (ulong seed = 1; seed <= 40; seed++)
        {
            WildSession wild = WildSession.Make(seed);
            await File.WriteAllTextAsync(path, wild.Text);
            CommandRun run = await CommandRun.Of("check", "session", path);
            bool undamaged = Journals.Read(Encoding.UTF8.GetBytes(wild.Text)).IsUndamaged;
            Assert.Equal(undamaged ? 0 : 1, run.ExitCode);
            Assert.DoesNotContain("unexpected", run.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
            Assert.Contains("digest ", run.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_check_ends_with_0_for_an_undamaged_session_and_with_1_for_a_damaged_one()
    {
        string path = Path.Combine(_folder.FullName, "session.jsonl");
        List<string> lines = Journals.Lines(8);
        await File.WriteAllTextAsync(path, string.Concat(lines));
        Assert.Equal(0, (await CommandRun.Of("check", "session", path)).ExitCode);
        lines[4] = lines[4].Replace("\"clock\"", "\"clack\"", StringComparison.Ordinal);
        await File.WriteAllTextAsync(path, string.Concat(lines));
        CommandRun run = await CommandRun.Of("check", "session", path);
        Assert.Equal(1, run.ExitCode);
        Assert.Contains("line 5: the line is damaged", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("dish_diameter_metres", "0", 0.8)]
    [InlineData("dish_diameter_metres", "-5", 0.8)]
    [InlineData("dish_diameter_metres", "1e300", 0.8)]
    [InlineData("downlink_hz", "0", 0.8)]
    [InlineData("downlink_hz", "-1", 0.8)]
    [InlineData("minimum_elevation_rad", "99", 0.8)]
    [InlineData("allowed_loss_db", "-1", 0.8)]
    [InlineData("allowed_loss_db", "1e9", 0.8)]
    [InlineData("speed", "0", 0.8)]
    [InlineData("speed", "1e300", 0.8)]
    public void A_wild_setting_is_taken_as_the_usual_one_and_told(string setting, string value, double dishMetres)
    {
        string[] lines = WildSession.Make(2).Text.Split('\n');
        int start = lines[1].IndexOf($"\"{setting}\":", StringComparison.Ordinal);
        int end = lines[1].IndexOf(',', start);
        lines[1] = Journals.Checked($"{lines[1][..start]}\"{setting}\":{value}{lines[1][end..]}").TrimEnd('\n');
        Recording read = Journals.Read(Encoding.UTF8.GetBytes(string.Join('\n', lines)));
        Assert.Contains(read.Notes, note => note.Line == 2 && note.Kind == JournalNoteKind.Wild && note.Text.StartsWith($"{setting} is ", StringComparison.Ordinal));
        Assert.Equal(dishMetres, Assert.IsType<SessionOpened>(read.Envelopes[0].Event).Settings.DishDiameterMetres);
        AssertShows(read, 0);
    }

    private static void AssertShows(Recording read, ulong seed)
    {
        Fold fold = new();
        SnapshotDigest digest = new();
        Snapshot? last = null;
        foreach (Envelope envelope in read.Envelopes)
        {
            last = fold.Step(envelope);
            digest.Add(last);
        }

        Assert.NotNull(last);
        string text = Page.Compose(new PageInput(last, null, Replay: true, Help: false, Notice: null), PageMemory.Empty, 80, 24).Page.Text;
        Assert.True(text.Count(char.IsLetterOrDigit) > 100, $"seed {seed}: the screen is blank: {text}");
    }

    private static void AssertSame(SessionEvent good, SessionEvent found)
    {
        // The list of feeds compares by reference; all else by value.
        if (good is SessionOpened one && found is SessionOpened other)
        {
            Assert.Equal(one.Settings.Feeds.AsEnumerable(), other.Settings.Feeds);
            found = new SessionOpened(other.Settings with { Feeds = one.Settings.Feeds });
        }

        Assert.Equal(good, found);
    }
}
