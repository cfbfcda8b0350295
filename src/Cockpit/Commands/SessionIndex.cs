using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>All sessions of a folder in rows; reviews are kept in a file beside them, and made again where a journal has changed.</summary>
public static class SessionIndex
{
    /// <summary>Name of the file in the folder of the sessions; it may be deleted at any time.</summary>
    public const string FileName = "index.json";

    private const int Version = 2;
    private const long LongestFile = 64 * 1024 * 1024;
    private static readonly TimeSpan KeepEvery = TimeSpan.FromSeconds(10);

    /// <summary>The sessions, oldest first.</summary>
    /// <param name="root">Folder of all sessions.</param>
    /// <param name="complaints">Where it is told when the file could not be kept.</param>
    /// <returns>The rows, or one sentence why there are none.</returns>
    public static Parsed<ImmutableArray<SessionEntry>> Read(string root, TextWriter complaints)
    {
        ArgumentNullException.ThrowIfNull(complaints);
        if (!Directory.Exists(root))
        {
            return new ParseError(root, 0, 0, "there is no such folder; say with --sessions where the sessions are");
        }

        try
        {
            Dictionary<string, SessionEntry> kept = Kept(Path.Combine(root, FileName));
            List<SessionEntry> entries = [];
            List<string> changed = [];
            foreach (string folder in Directory.EnumerateDirectories(root))
            {
                if (SessionFolder.JournalIn(folder) is not { } path)
                {
                    continue;
                }

                var journal = new FileInfo(path);
                if (kept.TryGetValue(Path.GetFileName(folder), out SessionEntry? entry) && entry.Bytes == journal.Length && entry.WrittenUtc == journal.LastWriteTimeUtc)
                {
                    entries.Add(entry);
                }
                else
                {
                    changed.Add(folder);
                }
            }

            if (changed.Count > 0)
            {
                Review(root, changed, entries, complaints);
            }

            if (changed.Count > 0 || entries.Count != kept.Count)
            {
                Keep(root, entries, complaints);
            }

            HashSet<string> names = [.. entries.Select(e => e.Name)];
            return entries.Select(e => e with { IsReplaced = names.Contains(e.Name + SessionMender.Ending) })
                .OrderBy(e => e.FromUtc ?? DateTimeOffset.MinValue).ThenBy(e => e.Name, StringComparer.Ordinal).ToImmutableArray();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(root, 0, 0, $"the sessions cannot be listed ({FileWords.Of(failure)})");
        }
    }

    /// <summary>Reviews what has changed, on all processors; the file is kept now and then, so that a long run that is ended has not been for nothing.</summary>
    private static void Review(string root, List<string> changed, List<SessionEntry> entries, TextWriter complaints)
    {
        ProgressBar bar = ProgressBar.OnTerminal(complaints, TimeProvider.System, changed.Count, "sessions are reviewed");
        int done = 0;
        long keptAt = TimeProvider.System.GetTimestamp();
        try
        {
            foreach (SessionEntry entry in changed.AsParallel().WithMergeOptions(ParallelMergeOptions.NotBuffered).Select(SessionEntry.Of))
            {
                entries.Add(entry);
                bar.Show(++done);
                if (TimeProvider.System.GetElapsedTime(keptAt) > KeepEvery)
                {
                    keptAt = TimeProvider.System.GetTimestamp();
                    Keep(root, entries, complaints);
                }
            }
        }
        catch (AggregateException failure) when (failure.InnerExceptions.FirstOrDefault(e => e is IOException or UnauthorizedAccessException) is { } first)
        {
            throw new IOException(first.Message, first);
        }
        finally
        {
            bar.Clear();
        }
    }

    // A file that is damaged, too large, of another version or by another program counts as none: everything in it can be made again.
    private static Dictionary<string, SessionEntry> Kept(string path)
    {
        var info = new FileInfo(path);
        if (!info.Exists || info.Length > LongestFile)
        {
            return [];
        }

        try
        {
            SessionIndexFile? file = JsonSerializer.Deserialize(File.ReadAllBytes(path), SessionIndexJson.Default.SessionIndexFile);
            return file is { Index: Version, Sessions.IsDefault: false } && string.Equals(file.Program, ProgramVersion.Identity, StringComparison.Ordinal)
                ? file.Sessions.Where(e => e is { Name: not null, Causes.IsDefault: false }).GroupBy(e => e.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal)
                : [];
        }
        catch (Exception trouble) when (trouble is JsonException or IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static void Keep(string root, IEnumerable<SessionEntry> entries, TextWriter complaints)
    {
        string text = JsonSerializer.Serialize(new SessionIndexFile(Version, ProgramVersion.Identity, [.. entries]), SessionIndexJson.Default.SessionIndexFile);
        if (WholeFile.Write(Path.Combine(root, FileName), text + "\n", "the list of sessions", "--sessions") is { } trouble)
        {
            complaints.WriteLine($"the list is not kept, so the next one takes as long: {trouble}");
        }
    }
}

/// <summary>The file.</summary>
/// <param name="Index">Version of its form.</param>
/// <param name="Program">The program that made the reviews.</param>
/// <param name="Sessions">A row each.</param>
internal sealed record SessionIndexFile(int Index, string Program, ImmutableArray<SessionEntry> Sessions);

/// <summary>Reads and writes it without reflection.</summary>
[JsonSourceGenerationOptions(RespectNullableAnnotations = true)]
[JsonSerializable(typeof(SessionIndexFile))]
internal sealed partial class SessionIndexJson : JsonSerializerContext;
