using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Session.Computers.Feeds;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Messages;

/// <summary>Chooses the one sentence of the line of messages: the gravest trouble that lasts, else the latest note.</summary>
public static class MessageComputer
{
    /// <summary>How long a passing note stays, real time.</summary>
    public static readonly TimeSpan NoteStays = TimeSpan.FromSeconds(8);

    /// <summary>Lock must be missing this long before it is said.</summary>
    public static readonly TimeSpan LockPatience = TimeSpan.FromSeconds(2);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static MessageMemory Next(MessageMemory memory, MessageInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        memory = input.Scene.Opens ? MessageMemory.Empty : memory;
        if (input.Scene.Envelope.Event is PartFailed failed)
        {
            memory = memory with { Failed = $"{failed.Part} failed: {failed.Trouble}; the rest goes on" };
        }

        if (NoteOf(input.Scene.Envelope.Event, input.Snapshot) is { } note)
        {
            memory = memory with { Note = note, NoteUntil = input.Scene.Elapsed + input.Scene.Session(NoteStays) };
        }

        (string? text, MessageWeight weight) = Choose(memory, input.Snapshot, input.Notice);
        return text is null
            ? memory with { Shown = null }
            : memory.Shown is { } shown && string.Equals(shown.Text, text, StringComparison.Ordinal)
                ? memory
                : memory with { Shown = new Message(text, weight, input.Scene.Utc) };
    }

    /// <summary>The sentence that is shown; null when there is none.</summary>
    /// <param name="memory">The memory after the event.</param>
    public static Message? Derive(MessageMemory memory)
    {
        ArgumentNullException.ThrowIfNull(memory);
        return memory.Shown;
    }

    private static (string? Text, MessageWeight Weight) Choose(MessageMemory memory, Snapshot snapshot, Message? notice)
    {
        if (snapshot.Desk.JournalTrouble is { } journal)
        {
            return ($"the session is not being recorded: {journal}", MessageWeight.Warning);
        }

        if (notice is not null)
        {
            return (notice.Text, notice.Weight);
        }

        bool inPass = snapshot.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;
        foreach (FeedNow feed in snapshot.Feeds)
        {
            if (feed.Role is FeedRole.Place or FeedRole.Pointing && inPass)
            {
                continue;
            }

            if (feed.IsCutOff || feed.Health is FeedHealth.Absent or FeedHealth.Unreadable or FeedHealth.Stale || (inPass && feed.Health == FeedHealth.Waiting))
            {
                return (OfFeed(feed), inPass && !feed.IsCutOff && feed.Health is not FeedHealth.Stale ? MessageWeight.Warning : MessageWeight.Caution);
            }
        }

        foreach (FeedNow feed in snapshot.Feeds)
        {
            if (feed.Recording is { DiskSoonFull: true, MinutesLeft: { } minutes })
            {
                return (string.Create(CultureInfo.InvariantCulture, $"the disk of the recording is full in {minutes:0.0} minutes: make room"), MessageWeight.Warning);
            }

            if (feed.Remark is { } remark)
            {
                return ($"{feed.Name}: {remark}", MessageWeight.Caution);
            }
        }

        if (inPass && snapshot.Link.LockLostFor is { } lost && lost >= LockPatience)
        {
            return (string.Create(CultureInfo.InvariantCulture, $"no lock for {lost.TotalSeconds:0} s"), MessageWeight.Caution);
        }

        if (snapshot.Desk.Clock is { IsWrong: true } clock)
        {
            string way = clock.Behind > TimeSpan.Zero ? "behind" : "ahead of";
            return (string.Create(CultureInfo.InvariantCulture, $"the clock is {clock.Behind.Duration().TotalSeconds:0.0} s {way} {clock.Against}: C corrects the predictions"), MessageWeight.Caution);
        }

        if (inPass && snapshot.Link.Carrier?.Slip is { IsWrong: true } slip)
        {
            return (OfSlip(slip, snapshot.Desk.Clock), MessageWeight.Caution);
        }

        // Nobody carries the tripod away in a pass.
        if (!inPass && snapshot.Desk.Place is { IsFar: true } place)
        {
            return (FarPlace(place), MessageWeight.Caution);
        }

        if (memory.Failed is { } part)
        {
            return (part, MessageWeight.Caution);
        }

        if (memory.Note is not null && snapshot.Elapsed <= memory.NoteUntil)
        {
            return (memory.Note, MessageWeight.Advisory);
        }

        return (null, MessageWeight.Advisory);
    }

    private static string FarPlace(PlaceNow place)
    {
        string far = place.DistanceMetres < 999.5
            ? string.Create(CultureInfo.InvariantCulture, $"{place.DistanceMetres:0} m")
            : string.Create(CultureInfo.InvariantCulture, $"{place.DistanceMetres / 1000.0:0.#} km");
        return $"the station is {far} from where the receiver says: start again with --station {place.AsOption}";
    }

    private static string OfFeed(FeedNow feed) => feed.Health switch
    {
        _ when feed is { Records: 0, Rejected: > 0 } =>
            string.Create(CultureInfo.InvariantCulture, $"{feed.Name}: {feed.Rejected} lines came, none understood{Because(feed)}"),
        FeedHealth.Unreadable => $"{feed.Name} is unreadable: {feed.Trouble}",
        _ when feed.Records == 0 => $"{feed.Name} has not come yet{Because(feed)}",
        _ => string.Create(CultureInfo.InvariantCulture, $"{feed.Name} silent since {feed.SilentSince:HH:mm:ss} UTC{Because(feed)}"),
    };

    private static string OfSlip(SlipNow slip, ClockNow? clock)
    {
        string blame = clock is { IsWrong: false } ? "the elements are old" : "clock wrong, or elements old";
        return string.Create(
            CultureInfo.InvariantCulture, $"Doppler is {Math.Abs(slip.Seconds):0.0} s {(slip.Seconds > 0.0 ? "early" : "late")} (±{slip.Sd:0.0}): {blame}");
    }

    private static string Because(FeedNow feed) => feed.Trouble is null ? "" : $": {feed.Trouble}";

    private static string? NoteOf(SessionEvent happened, Snapshot snapshot) => happened switch
    {
        SessionOpened { Settings.Feeds.Length: > FeedsMemory.MostFeeds and var feeds } =>
            string.Create(CultureInfo.InvariantCulture, $"only the first {FeedsMemory.MostFeeds} of {feeds} feeds are watched"),
        SessionOpened when snapshot.Sky is null => "no pass: only clock, signal and journal run",
        FeedConnected e => $"{e.Feed} connected: {e.Where}",
        FeedNoted e => $"{e.Feed} {e.Note}",
        ClockCorrected e => string.Create(CultureInfo.InvariantCulture, $"clock corrected by {e.Change.TotalSeconds:+0.00;-0.00} s: {e.Reason}"),
        ClockCompared { Behind: { } behind } e => string.Create(CultureInfo.InvariantCulture, $"clock within {Math.Max(behind.Duration().TotalSeconds, e.Doubt.TotalSeconds):0.00} s of {e.Against}"),
        ClockCompared { Trouble: { } trouble } e => $"clock not compared with {e.Against}: {trouble}",
        JournalChanged { Trouble: null } => "recording again",
        SpeakerChanged { Trouble: { } trouble } e => $"sound: {trouble}; {e.Device} instead",
        OperatorPressed => snapshot.Answer?.Words,

        // Where its feed has said why it is silent, that it is silent is no news.
        _ when snapshot.Sensor is { State: SensorState.Asleep } && snapshot.Feeds.Any(feed => feed is { Role: FeedRole.Pointing, Trouble: not null }) => null,
        _ => snapshot.Sensor?.Note,
    };
}
