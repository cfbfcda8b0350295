using System.Collections.Immutable;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the alarms remember.</summary>
/// <param name="Recording">The recording stopped.</param>
/// <param name="Receiver">The signal feed is gone.</param>
/// <param name="Lock">The lock is lost.</param>
/// <param name="Feed">A feed is stale, unreadable or has not come.</param>
/// <param name="Part">A part of the program failed.</param>
/// <param name="Sun">The plan comes near the sun.</param>
/// <param name="LockSeen">There was lock in this pass.</param>
/// <param name="PartFailedAt">When a part failed.</param>
/// <param name="LossHeard">The loss of a feed was heard, and its return not yet.</param>
/// <param name="BackSince">Since when all feeds are well again.</param>
/// <param name="Disk">The disk of the recording is full soon.</param>
/// <param name="Remark">Something about a feed's readings wants attention.</param>
internal readonly record struct AlarmsMemory(
    AlarmMemory Recording,
    AlarmMemory Receiver,
    AlarmMemory Lock,
    AlarmMemory Feed,
    AlarmMemory Part,
    AlarmMemory Sun,
    bool LockSeen,
    TimeSpan? PartFailedAt,
    bool LossHeard,
    TimeSpan? BackSince,
    AlarmMemory Disk,
    AlarmMemory Remark);

/// <summary>Warnings: recording, receiver. Cautions: lock, feeds, a part of the program.</summary>
/// <remarks>
/// A receiver that never came is no warning, since setting up takes time; feeds count from a minute before the rise, lock
/// from the rise to the end, and only after there was lock. While the operator searches a lock that is missing is no news; a feed that
/// goes is. A feed whose loss was heard is heard again when it has been back for a second.
/// </remarks>
internal static class AlarmRules
{
    private const double LockLostSeconds = 2.0;
    private const double NotComeSeconds = 10.0;
    private const double PartFailedForSeconds = 25.0;
    private const double BackSeconds = 1.0;

    public static AlarmsMemory Next(AlarmsMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        memory = Watch(memory, moment);
        memory = memory with
        {
            Recording = Alarm.Next(memory.Recording, moment.Snapshot.Desk.JournalTrouble is not null, Alarm.UntilSeen, () => Recording(moment), moment, arbiter),
            Disk = Alarm.Next(memory.Disk, Filling(moment) is not null, Alarm.UntilSeen, () => Disk(moment), moment, arbiter),
            Receiver = Alarm.Next(memory.Receiver, Gone(moment) is not null, Alarm.UntilSeen, () => Receiver(moment), moment, arbiter),
        };
        memory = memory with { Feed = Alarm.Next(memory.Feed, Ailing(moment) is not null, Alarm.ThreeTimes, () => Feed(moment), moment, arbiter) };
        memory = Back(memory, moment, arbiter);
        memory = memory with { Sun = Alarm.Next(memory.Sun, NearSun(moment), Skipped(moment) is null ? Alarm.ThreeTimes : Alarm.Twice, () => Sun(moment), moment, arbiter) };
        if (moment.Aim is { Word: AimWord.Search } or { PeakAsked: true }) { return memory; }

        bool failed = moment.Elapsed - memory.PartFailedAt < moment.Real(PartFailedForSeconds);
        return memory with
        {
            Lock = Alarm.Next(memory.Lock, LockLost(memory, moment), Alarm.ThreeTimes, () => CueTable.Caution("lock lost"), moment, arbiter),
            Remark = Alarm.Next(memory.Remark, Remarked(moment) is not null, Alarm.ThreeTimes, () => Remark(moment), moment, arbiter),
            Part = Alarm.Next(memory.Part, failed, Alarm.ThreeTimes, () => CueTable.Caution("a part of the program failed"), moment, arbiter),
        };
    }

    private static AlarmsMemory Back(AlarmsMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        if (Gone(moment) is not null || Ailing(moment) is not null)
        {
            return memory with { LossHeard = memory.LossHeard || memory.Receiver.Times + memory.Feed.Times > 0, BackSince = null };
        }

        if (!memory.LossHeard) { return memory; }

        TimeSpan since = memory.BackSince ?? moment.Elapsed;
        if (moment.Elapsed - since < moment.Real(BackSeconds) || !arbiter.TryStart(CueTable.FeedBack("signal is back"))) { return memory with { BackSince = since }; }

        return memory with { LossHeard = false, BackSince = null };
    }

    private static AlarmsMemory Watch(AlarmsMemory memory, CueMoment moment) => memory with
    {
        LockSeen = moment.InPass && (memory.LockSeen || moment.Snapshot.Link.IsLocked),
        PartFailedAt = moment.Event is PartFailed ? moment.Elapsed : memory.PartFailedAt,
    };

    private static bool LockLost(AlarmsMemory memory, CueMoment moment) =>
        memory.LockSeen && moment.Snapshot.Link is { IsFresh: true, LockLostFor: { } lost } && lost > moment.Real(LockLostSeconds);

    private static bool NearSun(CueMoment moment) => moment.NearPass && moment.Snapshot.Sky?.Sun is { } sun && sun.IsNear(moment.Snapshot.Utc);

    private static SkippedHolds? Skipped(CueMoment moment) => moment.Snapshot.Sky?.Sun?.Skipped;

    private static FeedNow? Gone(CueMoment moment) => moment.NearPass
        ? First(moment, feed => feed is { Health: FeedHealth.Absent, Records: > 0 } && IsReceiver(feed))
        : null;

    private static FeedNow? Filling(CueMoment moment) => moment.NearPass ? First(moment, feed => feed.Recording is { DiskSoonFull: true }) : null;

    private static FeedNow? Remarked(CueMoment moment) => moment.NearPass ? First(moment, feed => feed.Remark is not null) : null;

    private static FeedNow? Ailing(CueMoment moment) => moment.NearPass ? First(moment, feed => feed.Role is not (FeedRole.Place or FeedRole.Pointing) && IsAiling(feed, moment)) : null;

    private static bool IsAiling(FeedNow feed, CueMoment moment) => feed.Health switch
    {
        FeedHealth.Unreadable => true,
        FeedHealth.Good => false,
        _ when feed.Records == 0 => moment.InPass && moment.Elapsed >= moment.Real(NotComeSeconds),
        FeedHealth.Absent => !IsReceiver(feed),
        _ => feed.Health == FeedHealth.Stale,
    };

    private static bool IsReceiver(FeedNow feed) => feed.Role == FeedRole.Signal;

    private static FeedNow? First(CueMoment moment, Func<FeedNow, bool> wanted)
    {
        ImmutableArray<FeedNow> feeds = moment.Snapshot.Feeds;
        return feeds.IsDefaultOrEmpty ? null : feeds.FirstOrDefault(wanted);
    }

    private static Cue Recording(CueMoment moment) => CueTable.Warning($"recording stopped: {moment.Snapshot.Desk.JournalTrouble}");

    private static Cue Disk(CueMoment moment) =>
        CueTable.Warning(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"the disk of the recording is full in {Filling(moment)?.Recording?.MinutesLeft:0} minutes"));

    private static Cue Remark(CueMoment moment) => CueTable.Caution($"{Remarked(moment)?.Name}: {Remarked(moment)?.Remark}");

    private static Cue Sun(CueMoment moment) => CueTable.Caution(Skipped(moment)?.Words() ?? "the sun is near the beam");

    private static Cue Receiver(CueMoment moment) => CueTable.Warning($"{Gone(moment)?.Name} is gone");

    private static Cue Feed(CueMoment moment)
    {
        FeedNow? feed = Ailing(moment);
        string what = feed?.Health switch
        {
            FeedHealth.Unreadable => "is unreadable",
            _ when feed?.Records == 0 => "has not come",
            FeedHealth.Absent => "is gone",
            _ => "is silent",
        };
        return CueTable.Caution($"{feed?.Name} {what}");
    }
}
