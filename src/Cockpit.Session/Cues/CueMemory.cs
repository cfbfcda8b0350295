using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the cues remember from step to step; immutable, part of the state of the session.</summary>
public sealed record CueMemory
{
    private CueMemory()
    {
    }

    /// <summary>The memory before the first event.</summary>
    public static CueMemory Empty { get; } = new();

    /// <summary>A warning sounds that was not acknowledged.</summary>
    public bool IsWarning => Alarms.Recording.IsUnseen || Alarms.Receiver.IsUnseen;

    /// <summary>A warning or a caution sounded that was not acknowledged.</summary>
    public bool IsAlarming => IsWarning || Alarms.Lock.IsUnseen || Alarms.Feed.IsUnseen || Alarms.Part.IsUnseen || Alarms.Sun.IsUnseen;

    internal CuePlan Plan { get; init; } = CuePlan.Silence;

    internal ArbiterMemory Arbiter { get; init; }

    internal AlarmsMemory Alarms { get; init; }

    internal AnswerMemory Answer { get; init; }

    internal HoldClockMemory HoldClock { get; init; }

    internal SensorMemory Zone { get; init; }

    internal AdvisoryMemory Advisories { get; init; }

    internal PeakMemory Peak { get; init; }

    internal TimeSpan? Heartbeat { get; init; }
}
