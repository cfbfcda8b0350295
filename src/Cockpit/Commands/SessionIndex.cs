using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Reports;

namespace Cockpit.Commands;

/// <summary>All sessions of a folder in rows; reviews are kept in a file beside them, and made again where a journal has changed.</summary>
public static class SessionIndex
{
    /// <summary>Name of the file in the folder of the sessions; it may be deleted at any time.</summary>
    public const string FileName = "index.json";

    private const int Version = 2;
    private const long LongestFile = 64 * 1024 * 1024;

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
            bool changed = false;
            var entries = ImmutableArray.CreateBuilder<SessionEntry>();
            foreach ((string folder, string path) in Directory.EnumerateDirectories(root).Select(f => (f, SessionFolder.JournalIn(f) ?? "")).Where(one => one.Item2.Length > 0))
            {
                var journal = new FileInfo(path);
                bool same = kept.TryGetValue(Path.GetFileName(folder), out SessionEntry? entry)
                    && entry.Bytes == journal.Length && entry.WrittenUtc == journal.LastWriteTimeUtc;
                changed |= !same;
                entries.Add(same ? entry! : SessionEntry.Of(folder));
            }

            if (changed || entries.Count != kept.Count)
            {
                Keep(root, entries, complaints);
            }

            return entries.OrderBy(e => e.FromUtc ?? DateTimeOffset.MinValue).ThenBy(e => e.Name, StringComparer.Ordinal).ToImmutableArray();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(root, 0, 0, $"the sessions cannot be listed ({FileWords.Of(failure)})");
        }
    }

    // A file that is damaged, too large or of another version counts as none: everything in it can be made again.
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
            return file is { Index: Version, Sessions.IsDefault: false }
                ? file.Sessions.GroupBy(e => e.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal)
                : [];
        }
        catch (JsonException)
        {
            return [];
        }
    }

    private static void Keep(string root, IEnumerable<SessionEntry> entries, TextWriter complaints)
    {
        string text = JsonSerializer.Serialize(new SessionIndexFile(Version, [.. entries]), SessionIndexJson.Default.SessionIndexFile);
        if (WholeFile.Write(Path.Combine(root, FileName), text + "\n", "the list of sessions", "--sessions") is { } trouble)
        {
            complaints.WriteLine($"the list is not kept, so the next one takes as long: {trouble}");
        }
    }
}

/// <summary>The file.</summary>
/// <param name="Index">Version of its form.</param>
/// <param name="Sessions">A row each.</param>
internal sealed record SessionIndexFile(int Index, ImmutableArray<SessionEntry> Sessions);

/// <summary>Reads and writes it without reflection.</summary>
[JsonSerializable(typeof(SessionIndexFile))]
internal sealed partial class SessionIndexJson : JsonSerializerContext;
