using System.Collections.Immutable;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>Saves what can be read of a damaged session in a folder of its own beside it; the damaged one is not touched.</summary>
public static class SessionMender
{
    /// <summary>What the folder of a mended session ends in.</summary>
    public const string Ending = "-mended";

    /// <summary>Explains what is damaged, and saves the rest.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <param name="programVersion">For the header, where the session's own is lost.</param>
    /// <returns>What was found and saved, or one sentence why nothing could be.</returns>
    public static Parsed<MendedSession> Mend(string path, string programVersion)
    {
        if (!Recording.ReadAll(path).Try(out Recording? damaged, out ParseError? error))
        {
            return error;
        }

        ImmutableArray<string> losses = DamageReport.Of(damaged);
        if (damaged.IsUndamaged)
        {
            return new MendedSession(damaged, losses, null);
        }

        return !Begin(path).Try(out SessionFolder? folder, out error) || !Write(folder, damaged, programVersion).Try(out _, out error)
            ? error
            : new MendedSession(damaged, losses, folder);
    }

    /// <summary>A folder beside that of the session, which is not there yet.</summary>
    private static Parsed<SessionFolder> Begin(string path)
    {
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        string session = Directory.Exists(full) ? full : Path.GetDirectoryName(full) ?? full;
        for (int number = 1; ; number++)
        {
            string folder = session + Ending + (number == 1 ? "" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"-{number}"));
            if (Path.Exists(folder))
            {
                continue;
            }

            try
            {
                Directory.CreateDirectory(folder);
                return new SessionFolder(folder);
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                return new ParseError(folder, 0, 0, $"the mended session cannot be written here ({FileWords.Of(failure)}); copy the damaged one to where there is room, and mend it there");
            }
        }
    }

    private static Parsed<bool> Write(SessionFolder folder, Recording damaged, string programVersion)
    {
        try
        {
            JournalText.Write(folder.JournalPath, damaged.Header ?? new JournalHeader(JournalHeader.CurrentFormat, programVersion, damaged.Envelopes[0].Utc), damaged.Envelopes);
            return true;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            Remove(folder);
            return new ParseError(folder.Path, 0, 0, $"the mended session cannot be written ({FileWords.Of(failure)}); the damaged one is as it was");
        }
    }

    private static void Remove(SessionFolder folder)
    {
        try
        {
            Directory.Delete(folder.Path, recursive: true);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            // The disk is in trouble, which is being told already; what is left of the folder says so by its name.
        }
    }
}

/// <summary>What became of a damaged session.</summary>
/// <param name="Damaged">What could be read of it.</param>
/// <param name="Losses">What is damaged and what is lost by it, a sentence each; empty where nothing is.</param>
/// <param name="Folder">Where the rest was saved; null where there was nothing to mend.</param>
public sealed record MendedSession(Recording Damaged, ImmutableArray<string> Losses, SessionFolder? Folder);
