using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>A soft tick every 5 s while all is well: the dish holds, the signal is fresh and near what is expected, the lock is there.</summary>
/// <remarks>It proves that the sound works, so that silence can be trusted. Its absence means that something is not well.</remarks>
internal static class Heartbeat
{
    private const double EverySeconds = 5.0;
    private const double ClearOfClockSeconds = 4.0;
    private const double MissingDb = 3.0;

    /// <param name="since">When it sounded last, or since when all is well; null when it was not.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="arbiter">Who may sound.</param>
    public static TimeSpan? Next(TimeSpan? since, CueMoment moment, CueArbiter arbiter)
    {
        if (!IsWell(moment)) { return null; }

        TimeSpan last = since ?? moment.Elapsed;
        bool clear = !(moment.Aim.NudgeAt - moment.Snapshot.Utc < moment.Real(ClearOfClockSeconds));
        bool due = clear && moment.Elapsed - last >= moment.Real(EverySeconds);
        return due && arbiter.TryStart(CueTable.Heartbeat) ? moment.Elapsed : last;
    }

    private static bool IsWell(CueMoment moment)
    {
        LinkNow link = moment.Snapshot.Link;
        return moment.InPass
            && moment.Snapshot.Settings is { Heartbeat: true }
            && moment.Aim.Word == AimWord.Hold
            && link.IsFresh
            && link.LockLostFor is null
            && !(link.ExpectedDb - link.MeasuredDb > MissingDb);
    }
}
