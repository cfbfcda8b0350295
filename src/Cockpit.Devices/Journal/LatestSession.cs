using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>The latest of the sessions in a folder.</summary>
public static class LatestSession
{
    /// <summary>The session that was written last.</summary>
    /// <param name="root">Folder of all sessions.</param>
    /// <returns>Its folder, or one sentence why there is none.</returns>
    public static Parsed<string> Under(string root)
    {
        try
        {
            string? latest = Directory.Exists(root)
                ? Directory.EnumerateDirectories(root)
                    .Select(folder => (Folder: folder, Journal: SessionFolder.JournalIn(folder)))
                    .Where(one => one.Journal is not null)
                    .OrderByDescending(one => File.GetLastWriteTimeUtc(one.Journal ?? ""))
                    .ThenByDescending(one => one.Folder, StringComparer.Ordinal)
                    .FirstOrDefault().Folder
                : null;
            return latest is null
                ? new ParseError(root, 0, 0, "there is no session here; name one, or the folder that holds them with --sessions")
                : latest;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(root, 0, 0, $"the sessions cannot be listed ({FileWords.Of(failure)})");
        }
    }
}
