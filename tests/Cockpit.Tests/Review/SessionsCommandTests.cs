using System.Collections.Immutable;
using System.Text.Json;
using Cockpit.Commands;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Review;

public sealed class SessionsCommandTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("cockpit-sessions").FullName;

    private static string Sample => Path.Combine(Repository.Root, "sessions", "sample-petrel-2", "session.jsonl");

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private string Add(string name, Func<string, string>? change = null)
    {
        string folder = Directory.CreateDirectory(Path.Combine(_root, name)).FullName;
        string text = File.ReadAllText(Sample);
        File.WriteAllText(Path.Combine(folder, "session.jsonl"), change?.Invoke(text) ?? text);
        return folder;
    }

    private async Task<JsonElement[]> List(params string[] more)
    {
        CommandRun run = await CommandRun.Of(["sessions", "--sessions", _root, "--format", "json", .. more]);
        Assert.Equal(0, run.ExitCode);
        using var json = JsonDocument.Parse(run.Output);
        return [.. json.RootElement.EnumerateArray().Select(e => e.Clone())];
    }

    [Fact]
    public async Task Each_session_is_a_row_and_damage_is_told()
    {
        Add("a");
        Add("b", text => text[..(text.Length / 2)]);
        Add("c", _ => "this is no journal\n");
        JsonElement[] rows = await List("--sort", "top");
        Assert.Equal(3, rows.Length);
        JsonElement Row(string name) => rows.Single(r => r.GetProperty("session").GetString() == name);
        Assert.Equal(("PETREL 2", "cut off"), (Row("a").GetProperty("satellite").GetString(), Row("a").GetProperty("state").GetString()));
        Assert.Equal(246, Row("a").GetProperty("sent").GetInt32());
        Assert.Contains("fade:", Row("a").GetProperty("causes").GetString(), StringComparison.Ordinal);
        Assert.Equal("damaged", Row("b").GetProperty("state").GetString());
        Assert.Equal("damaged", Row("c").GetProperty("state").GetString());
        async Task<string> Names(params string[] filter) => string.Concat((await List(filter)).Select(r => r.GetProperty("session").GetString()));
        Assert.Equal("cb", await Names("--state", "damaged", "--sort", "length", "--reverse"));
        Assert.Equal("a", await Names("--state", "cut-off", "--satellite", "petrel 2", "--kind", "demo"));
        Assert.Equal("ab", await Names("--from", "2026-11-25T10:36:55Z", "--to", "2026-11-25T11:00:00Z", "--top", "70"));
        Assert.Equal("", await Names("--from", "2026-11-25T10:37:00Z"));
        Assert.Equal("", await Names("--to", "2026-11-25T10:36:55Z"));
        Assert.Equal("", await Names("--top", "80deg"));
    }

    [Fact]
    public async Task The_index_is_used_renewed_and_never_needed()
    {
        string folder = Add("a");
        JsonElement[] first = await List();
        string index = Path.Combine(_root, SessionIndex.FileName);
        string kept = await File.ReadAllTextAsync(index);

        // What it says is believed while the journal is the same ...
        await File.WriteAllTextAsync(index, kept.Replace("PETREL 2", "FENHERON", StringComparison.Ordinal));
        Assert.Equal("FENHERON", (await List())[0].GetProperty("satellite").GetString());

        // ... and made again when it is not, or when the file is damaged or gone.
        await File.AppendAllTextAsync(Path.Combine(folder, "session.jsonl"), "torn");
        Assert.Equal("PETREL 2", (await List())[0].GetProperty("satellite").GetString());
        await File.WriteAllTextAsync(index, kept[..(kept.Length / 2)]);
        Assert.Equal("damaged", (await List())[0].GetProperty("state").GetString());
        foreach (string broken in (string[])["{}", "[]", "null", "{\"Index\":2,\"Sessions\":null}", kept.Replace("\"a\"", "null", StringComparison.Ordinal), kept.Replace("\"PETREL 2\"", "null", StringComparison.Ordinal), kept.Replace("\"Program\":\"", "\"Program\":\"other ", StringComparison.Ordinal)])
        {
            await File.WriteAllTextAsync(index, broken);
            Assert.Equal("PETREL 2", (await List())[0].GetProperty("satellite").GetString());
            Assert.NotEqual(broken, await File.ReadAllTextAsync(index));
        }

        File.Delete(index);
        Assert.Equal(first.Length, (await List()).Length);
    }

    [Fact]
    public async Task A_damaged_session_counts_no_more_once_it_was_mended_and_is_listed_all_the_same()
    {
        string folder = Add("a", text => text[..(text.Length / 2)]);
        Assert.Equal(0, (await CommandRun.Of("sessions", "mend", folder)).ExitCode);
        Assert.True(SessionIndex.Read(_root, TextWriter.Null).Try(out ImmutableArray<SessionEntry> entries, out _));
        Assert.Equal(["a", "a-mended"], entries.Select(e => e.Name));
        Assert.Equal(["damaged", "cut off"], entries.Select(e => e.State));
        Assert.Equal([true, false], entries.Select(e => e.Pass() is null));
    }

    [Fact]
    public async Task Progress_leaves_out_what_is_too_short()
    {
        Add("a");
        CommandRun run = await CommandRun.Of("progress", "--sessions", _root);
        Assert.StartsWith("0 of 1 sessions", run.Output, StringComparison.Ordinal);
        CommandRun nowhere = await CommandRun.Of("progress", "--sessions", Path.Combine(_root, "no"));
        Assert.Equal((2, ""), (nowhere.ExitCode, nowhere.Output));
    }
}
