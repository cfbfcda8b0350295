using System.Globalization;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Session.Bus;

namespace Cockpit.Devices.Journal;

/// <summary>The folder of one session: its journal, and beside it what is made from it.</summary>
/// <param name="Path">Path of the folder.</param>
public sealed record SessionFolder(string Path)
{
    /// <summary>Name of the journal in its folder.</summary>
    public const string JournalName = "session.jsonl";

    /// <summary>What a packed journal ends in: Brotli, RFC 7932.</summary>
    public const string PackedEnding = ".br";

    private const int LongestSlug = 40;

    /// <summary>Path of the journal.</summary>
    public string JournalPath => System.IO.Path.Combine(Path, JournalName);

    /// <summary>Path of the journal that a folder holds, plain or packed; the plain one where both are there. Null where neither is.</summary>
    /// <param name="folder">A folder.</param>
    public static string? JournalIn(string folder)
    {
        string plain = System.IO.Path.Combine(folder, JournalName);
        return File.Exists(plain) ? plain : File.Exists(plain + PackedEnding) ? plain + PackedEnding : null;
    }

    /// <summary>Whether a file is a packed journal, by its name.</summary>
    public static bool IsPacked(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return path.EndsWith(PackedEnding, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Makes the folder of a new session, for instance <c>2026-11-25T101500Z-petrel-2</c>; a further one of the same second gets <c>-2</c>.</summary>
    /// <param name="root">Folder of all sessions; made when it is not there.</param>
    /// <param name="utc">Start of the session.</param>
    /// <param name="satellite">Name of the satellite.</param>
    /// <returns>The folder, or one sentence why it could not be made.</returns>
    public static Parsed<SessionFolder> Create(string root, DateTimeOffset utc, string satellite)
    {
        string name = utc.UtcDateTime.ToString("yyyy-MM-dd'T'HHmmss'Z'", CultureInfo.InvariantCulture) + "-" + Slug(satellite);
        try
        {
            Directory.CreateDirectory(root);
            for (int number = FirstFree(root, name); ; number++)
            {
                string path = System.IO.Path.Combine(root, number == 1 ? name : string.Create(CultureInfo.InvariantCulture, $"{name}-{number}"));
                if (!System.IO.Path.Exists(path))
                {
                    Directory.CreateDirectory(path);
                    return new SessionFolder(path);
                }
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return NotWritable(root, failure);
        }
    }

    /// <summary>Begins the journal of this folder and starts its writer.</summary>
    /// <param name="sink">Where trouble with the disk is told later.</param>
    /// <param name="time">The time of day and the writer's periods.</param>
    /// <param name="programVersion">For the header.</param>
    /// <returns>The writer, or one sentence why nothing can be written here.</returns>
    public Parsed<JournalWriter> StartJournal(IEventSink sink, TimeProvider time, string programVersion)
    {
        JournalPump pump = new(new JournalFile(JournalPath), sink, time, programVersion);
        try
        {
            pump.Open();
            return new JournalWriter(pump, Rescue);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            pump.Dispose();
            return NotWritable(Path, failure);
        }
    }

    /// <summary>A folder of its own among the temporary files, named like the session.</summary>
    private JournalFile Rescue()
    {
        string name = System.IO.Path.GetFileName(System.IO.Path.TrimEndingDirectorySeparator(Path));
        return new JournalFile(System.IO.Path.Combine(Directory.CreateTempSubdirectory($"cockpit-{name}-").FullName, JournalName));
    }

    /// <summary>The number behind the highest one that a session of this name has; 1 when there is none.</summary>
    private static int FirstFree(string root, string name)
    {
        int highest = 0;
        foreach (string path in Directory.EnumerateFileSystemEntries(root, name + "*"))
        {
            ReadOnlySpan<char> rest = System.IO.Path.GetFileName(path.AsSpan())[name.Length..];
            int number = rest.IsEmpty ? 1
                : rest[0] == '-' && int.TryParse(rest[1..], NumberStyles.None, CultureInfo.InvariantCulture, out int read) && read < int.MaxValue ? read
                : 0;
            highest = Math.Max(highest, number);
        }

        return highest + 1;
    }

    private static ParseError NotWritable(string path, Exception failure) =>
        new(path, 0, 0, $"the session cannot be written here ({FileWords.Of(failure)}); choose another folder with --sessions");

    /// <summary>The name in lower-case letters, digits and single hyphens.</summary>
    private static string Slug(string name)
    {
        StringBuilder slug = new();
        foreach (char letter in name.ToLowerInvariant())
        {
            if (char.IsAsciiLetterOrDigit(letter))
            {
                slug.Append(letter);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        string cut = slug.ToString(0, Math.Min(slug.Length, LongestSlug)).Trim('-');
        return cut.Length > 0 ? cut : "satellite";
    }
}
