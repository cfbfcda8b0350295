using System.Diagnostics;
using System.Globalization;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Xunit.Abstractions;

namespace Cockpit.EndToEnd.Tests.Journal;

public sealed class KillTests(ITestOutputHelper output) : IDisposable
{
    private const int Kills = 20;
    private const int AtOnce = 4;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-kill-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Killed_twenty_times_at_any_moment_each_session_reads_and_lacks_at_most_its_last_second()
    {
        Xoshiro256 chance = new(seed: 20261125);
        for (int round = 0; round < Kills / AtOnce; round++)
        {
            TimeSpan[] moments = [.. Enumerable.Range(0, AtOnce).Select(_ => TimeSpan.FromMilliseconds(chance.NextBelow(1200)))];
            await Task.WhenAll(moments.Select((moment, number) => KillOnceAsync($"{round}-{number}", moment)));
        }
    }

    private async Task KillOnceAsync(string name, TimeSpan moment)
    {
        (string path, List<(long Sequence, TimeSpan Elapsed)> published) = await RunUntilKilledAsync(Path.Combine(_folder.FullName, name), moment);
        Assert.True(Recording.ReadAll(path).Try(out Recording? read, out ParseError? error), error?.ToString());
        Assert.DoesNotContain(read.Notes, note => note.Kind != JournalNoteKind.TornEnd);
        Assert.IsType<SessionOpened>(read.Envelopes[0].Event);
        Assert.False(read.EndedInOrder);
        AssertReviewed(read);
        Assert.True(published.Count > 1);

        // What was published after the last event on the disk is missing; none of it may be older than a second.
        TimeSpan end = published[^1].Elapsed;
        long last = read.Envelopes[^1].Sequence;
        List<(long Sequence, TimeSpan Elapsed)> lost = [.. published.Where(one => one.Sequence > last)];
        output.WriteLine($"killed {end.TotalSeconds:0.00} s into the session: {lost.Count} of {published.Count} events missing, the oldest from {(lost.Count == 0 ? 0 : (end - lost[0].Elapsed).TotalMilliseconds):0.0} ms before");
        Assert.All(lost, missing => Assert.InRange(end - missing.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(1)));
    }

    // The pass of these sessions is under way: whatever is there of one is reviewed, and what was torn is named.
    private static void AssertReviewed(Recording read)
    {
        TimeSpan length = read.Envelopes[^1].Elapsed - read.Envelopes[0].Elapsed;
        bool stalled = read.Envelopes.Zip(read.Envelopes.Skip(1)).Any(pair => pair.Second.Elapsed - pair.First.Elapsed > TimeSpan.FromSeconds(0.4));
        SessionReview? review = ReviewRecorder.Of(read.Envelopes);
        Assert.True(review is { Lines.Sent: > 0 } || stalled || length < TimeSpan.FromSeconds(1.2), $"no review of {length}");
        Assert.Equal(read.IsUndamaged, DamageReport.Of(read).IsEmpty);
    }

    private static async Task<(string Path, List<(long Sequence, TimeSpan Elapsed)> Published)> RunUntilKilledAsync(string sessions, TimeSpan moment)
    {
        using ProgramRun program = ProgramRun.Start("simulate", "session", "--sessions", sessions, "--rate", "100");
        string path = Assert.IsType<string>(await program.Output.ReadLineAsync(CancellationToken.None));
        Assert.StartsWith("1 ", await program.Output.ReadLineAsync(CancellationToken.None), StringComparison.Ordinal);
        List<(long, TimeSpan)> published = [];
        Task reading = Task.Run(async () =>
        {
            while (await program.Output.ReadLineAsync(CancellationToken.None) is { } line)
            {
                string[] words = line.Split(' ');
                if (words.Length == 2 && long.TryParse(words[1], CultureInfo.InvariantCulture, out long ticks))
                {
                    published.Add((long.Parse(words[0], CultureInfo.InvariantCulture), TimeSpan.FromTicks(ticks)));
                }
            }
        });
        await UntilBegunAsync(path);
        await Task.Delay(moment);
        program.Kill();
        await reading;
        return (path, published);
    }

    /// <summary>The middle of a session is meant: it has begun when its first events are on the disk.</summary>
    private static async Task UntilBegunAsync(string path)
    {
        long start = Stopwatch.GetTimestamp();
        while (Recording.ReadAll(path).Error is not null)
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(15), "nothing was written");
            await Task.Delay(20);
        }
    }
}
