using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>What the line of messages remembers.</summary>
/// <param name="Shown">What is shown.</param>
/// <param name="Note">A passing note, shown when nothing is wrong.</param>
/// <param name="NoteUntil">Session time until which the note is shown.</param>
/// <param name="Failed">Parts that failed in this session, with their trouble.</param>
public sealed record MessageMemory(Message? Shown, string? Note, TimeSpan NoteUntil, ImmutableArray<string> Failed)
{
    /// <summary>Nothing said yet.</summary>
    public static MessageMemory Start { get; } = new(null, null, TimeSpan.Zero, []);
}

/// <summary>Chooses the one sentence of the line of messages: the gravest trouble that lasts, else the latest note.</summary>
public static class MessageComputer
{
    /// <summary>How long a passing note stays, real time.</summary>
    public static readonly TimeSpan NoteStays = TimeSpan.FromSeconds(8);

    /// <summary>Lock must be missing this long before it is said.</summary>
    public static readonly TimeSpan LockPatience = TimeSpan.FromSeconds(2);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">What was remembered.</param>
    /// <param name="snapshot">The moment after the event, complete but for message and cues.</param>
    /// <param name="notice">What the guidance wants to say; null for nothing.</param>
    /// <param name="envelope">The event.</param>
    public static MessageMemory Next(MessageMemory memory, Snapshot snapshot, Message? notice, Envelope envelope)
    {
        if (envelope.Event is PartFailed failed)
        {
            memory = memory with { Failed = memory.Failed.Add($"{failed.Part} failed: {failed.Trouble}; the rest goes on") };
        }

        if (NoteOf(envelope.Event, snapshot) is { } note)
        {
            memory = memory with { Note = note, NoteUntil = envelope.Elapsed + (NoteStays * (snapshot.Settings?.Speed ?? 1.0)) };
        }

        (string? text, MessageWeight weight) = Choose(memory, snapshot, notice);
        return text is null
            ? memory with { Shown = null }
            : memory.Shown is { } shown && string.Equals(shown.Text, text, StringComparison.Ordinal)
                ? memory
                : memory with { Shown = new Message(text, weight, envelope.Utc) };
    }

    private static (string? Text, MessageWeight Weight) Choose(MessageMemory memory, Snapshot snapshot, Message? notice)
    {
        if (snapshot.Desk.JournalTrouble is { } journal)
        {
            return ($"the session is not being recorded: {journal}", MessageWeight.Warning);
        }

        bool inPass = snapshot.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;
        foreach (FeedNow feed in snapshot.Feeds)
        {
            if (feed.Health is FeedHealth.Absent or FeedHealth.Unreadable or FeedHealth.Stale || (inPass && feed.Health == FeedHealth.Waiting))
            {
                return (OfFeed(feed), inPass && feed.Health is not FeedHealth.Stale ? MessageWeight.Warning : MessageWeight.Caution);
            }
        }

        if (inPass && snapshot.Link.LockLostFor is { } lost && lost >= LockPatience)
        {
            return (string.Create(CultureInfo.InvariantCulture, $"no lock for {lost.TotalSeconds:0} s"), MessageWeight.Caution);
        }

        if (notice is not null)
        {
            return (notice.Text, notice.Weight);
        }

        if (!memory.Failed.IsEmpty)
        {
            return (memory.Failed[^1], MessageWeight.Caution);
        }

        if (memory.Note is not null && snapshot.Elapsed <= memory.NoteUntil)
        {
            return (memory.Note, MessageWeight.Advisory);
        }

        return (null, MessageWeight.Advisory);
    }

    private static string OfFeed(FeedNow feed) => feed.Health switch
    {
        FeedHealth.Unreadable => $"{feed.Name} is unreadable: {feed.Trouble}",
        FeedHealth.Waiting => $"{feed.Name} has not come yet{Because(feed)}",
        _ => string.Create(CultureInfo.InvariantCulture, $"{feed.Name} silent since {feed.SilentSince:HH:mm:ss} UTC{Because(feed)}"),
    };

    private static string Because(FeedNow feed) => feed.Trouble is null ? "" : $": {feed.Trouble}";

    private static string? NoteOf(SessionEvent happened, Snapshot snapshot) => happened switch
    {
        SessionOpened when snapshot.Sky is null => "no pass: only clock, signal and journal run",
        FeedConnected e => $"{e.Feed} connected: {e.Where}",
        ClockCorrected e => string.Create(CultureInfo.InvariantCulture, $"clock corrected by {e.Change.TotalSeconds:+0.00;-0.00} s: {e.Reason}"),
        JournalChanged { Trouble: null } => "recording again",
        SpeakerChanged { Trouble: { } trouble } e => $"sound: {trouble}; {e.Device} instead",
        OperatorPressed { Key: OperatorKey.Mute } => snapshot.Desk.Muted ? "guidance sounds muted" : "guidance sounds on",
        OperatorPressed { Key: OperatorKey.Acknowledge } => "alarm acknowledged",
        OperatorPressed { Key: OperatorKey.Louder or OperatorKey.Softer } =>
            string.Create(CultureInfo.InvariantCulture, $"volume {snapshot.Desk.VolumeDb:+0;-0;0} dB"),
        _ => null,
    };
}
