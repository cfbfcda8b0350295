using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Messages;

/// <summary>What the line of messages remembers.</summary>
/// <param name="Shown">What is shown.</param>
/// <param name="Note">A passing note, shown when nothing is wrong.</param>
/// <param name="NoteUntil">Session time until which the note is shown.</param>
/// <param name="Failed">The last part that failed in this session, with its trouble; null when none did.</param>
public sealed record MessageMemory(Message? Shown, string? Note, TimeSpan NoteUntil, string? Failed)
{
    /// <summary>Nothing said yet.</summary>
    public static MessageMemory Empty { get; } = new(null, null, TimeSpan.Zero, null);
}

/// <summary>What the line of messages depends on besides its own past.</summary>
/// <param name="Snapshot">The moment after the event, complete but for message and cues.</param>
/// <param name="Notice">An answer to the operator; null when there is none.</param>
/// <param name="Scene">The event and its moment.</param>
public sealed record MessageInput(Snapshot Snapshot, Message? Notice, Scene Scene);
