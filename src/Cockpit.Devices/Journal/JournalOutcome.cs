using System.Globalization;

namespace Cockpit.Devices.Journal;

/// <summary>What became of a journal when it was closed.</summary>
/// <param name="Missing">Events that were given and are not surely in it.</param>
/// <param name="Trouble">What keeps it from being written; null when nothing does.</param>
/// <param name="Rescue">Path of a copy that holds all of it; null when there is none.</param>
public sealed record JournalOutcome(long Missing, string? Trouble, string? Rescue)
{
    /// <summary>Whether every event is in it.</summary>
    public bool IsWhole => Missing == 0 && Trouble is null;

    /// <summary>The last word about a session, one sentence.</summary>
    /// <param name="folder">Folder of the session.</param>
    public string Sentence(string folder)
    {
        if (IsWhole)
        {
            return $"session kept in {folder}";
        }

        string because = Trouble is null ? "" : $" ({Trouble})";
        string missing = string.Create(CultureInfo.InvariantCulture, $"session not kept whole in {folder}: {Missing} {(Missing == 1 ? "event is" : "events are")} missing{because}");
        return Rescue is null ? missing : $"{missing}; all that is held is in {Rescue}: move it to where it lasts";
    }
}
