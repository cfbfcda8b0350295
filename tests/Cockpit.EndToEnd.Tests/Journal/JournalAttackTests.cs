using System.Diagnostics;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Journal;

/// <summary>Another program does something to the journal of a running session.</summary>
public sealed class JournalAttackTests : IDisposable
{
    private readonly CockpitProcess _cockpit = new();

    public void Dispose() => _cockpit.Dispose();

    [Theory]
    [InlineData("saved by rename", "was replaced by another file")]
    [InlineData("replaced by a link", "was replaced by another file")]
    [InlineData("cut off", "was cut off")]
    [InlineData("removed", "was removed")]
    [InlineData("folder removed", "was removed")]
    public async Task Whatever_is_done_to_the_file_the_session_says_it_and_is_whole_at_the_end(string attack, string told)
    {
        using Process live = _cockpit.Start(_cockpit.Live("--stop-after", "6s"));
        Task<string> lines = live.StandardOutput.ReadToEndAsync();
        Task<string> words = live.StandardError.ReadToEndAsync();
        string folder = await SessionOfAsync(live);
        await Task.Delay(1500);
        Attack(attack, Path.Combine(folder, "session.jsonl"));
        await live.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Contains(told, await lines, StringComparison.Ordinal);
        Assert.Contains("session kept in ", await words, StringComparison.Ordinal);
        Assert.Equal(0, live.ExitCode);
        Assert.True(Recording.ReadAll(folder).Try(out Recording? read, out ParseError? error), error?.ToString());
        Assert.Empty(read.Notes);
        Assert.True(read.EndedInOrder);
        Assert.Equal(Enumerable.Range(1, read.Envelopes.Length).Select(number => (long)number), read.Envelopes.Select(envelope => envelope.Sequence));
    }

    [Fact]
    public async Task A_session_that_cannot_be_kept_says_so_last_leaves_with_a_code_and_is_put_elsewhere()
    {
        using Process live = _cockpit.Start(_cockpit.Live("--stop-after", "4s"));
        Task<string> lines = live.StandardOutput.ReadToEndAsync();
        Task<string> words = live.StandardError.ReadToEndAsync();
        string folder = await SessionOfAsync(live);
        Directory.Delete(_cockpit.Sessions, recursive: true);
        await File.WriteAllTextAsync(_cockpit.Sessions, "a file where the folder of sessions was");
        await live.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        _ = await lines;

        string last = Assert.Single((await words).Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.StartsWith($"session not kept whole in {folder}: ", last, StringComparison.Ordinal);
        Assert.Equal(1, live.ExitCode);
        const string Where = "all that is held is in ";
        string rescue = last[(last.IndexOf(Where, StringComparison.Ordinal) + Where.Length)..last.LastIndexOf(": move it", StringComparison.Ordinal)];
        Assert.True(Recording.ReadAll(rescue).Try(out Recording? read, out ParseError? error), error?.ToString());
        Directory.Delete(Path.GetDirectoryName(rescue)!, recursive: true);
        Assert.Empty(read.Notes);
        Assert.True(read.EndedInOrder);
    }

    private static void Attack(string attack, string path)
    {
        switch (attack)
        {
            case "saved by rename":
                File.Copy(path, path + "~");
                File.Move(path + "~", path, overwrite: true);
                break;
            case "replaced by a link":
                File.Delete(path);
                File.CreateSymbolicLink(path, "/dev/zero");
                break;
            case "cut off":
                using (FileStream file = new(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete))
                {
                    file.SetLength(0);
                }

                break;
            case "removed":
                File.Delete(path);
                break;
            default:
                Directory.Delete(Path.GetDirectoryName(path)!, recursive: true);
                break;
        }
    }

    private async Task<string> SessionOfAsync(Process live)
    {
        long start = Stopwatch.GetTimestamp();
        while (!live.HasExited)
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(30), string.Create(CultureInfo.InvariantCulture, $"no session in {_cockpit.Sessions}"));
            if (Directory.Exists(_cockpit.Sessions) && Directory.GetDirectories(_cockpit.Sessions) is [var folder] && Recording.ReadAll(folder).Value is not null)
            {
                return folder;
            }

            await Task.Delay(20);
        }

        throw new InvalidOperationException("the program ended before there was a session");
    }
}
