using Cockpit.Core.Sound;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>Decides what sounds: a step of the fold, called once for every event. Pure; reads no clock.</summary>
/// <remarks>
/// One cue at a time, in the order of <see cref="CueTable"/>; what finds the floor taken is dropped, not queued, except
/// that an alarm or a nudge that still holds asks again at the next step. Never a sound: being on target (but the
/// heartbeat), the clock, Doppler, single lines, a wobble of the level, errors below 0.22 B, fades, the two seconds in
/// which the hands follow a nudge, keys, the start of the program.
/// </remarks>
public static class CueComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">What was remembered after the event before; <see cref="CueMemory.Empty"/> before the first.</param>
    /// <param name="snapshot">The moment after the event, complete but for its cues.</param>
    /// <param name="envelope">The event.</param>
    public static CueMemory Next(CueMemory memory, Snapshot snapshot, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(envelope);
        memory = envelope.Event is SessionOpened ? CueMemory.Empty : memory;
        CueMoment moment = new(snapshot, envelope.Event);
        CueArbiter arbiter = new(memory.Arbiter, moment);

        AlarmsMemory alarms = AlarmRules.Next(memory.Alarms, moment, arbiter);
        AnswerMemory answer = OperatorRules.Next(memory.Answer, moment, arbiter);
        HoldClockMemory holdClock = HoldClock.Next(memory.HoldClock, moment, arbiter);
        SensorMemory zone = SensorGuidance.Next(memory.Zone, moment, holdClock.LastWord, arbiter);
        (PeakMemory peak, PeakTone? tone) = PeakSearch.Next(memory.Peak, moment, SensorGuidance.IsStalled(zone, moment), arbiter);
        AdvisoryMemory advisories = AdvisoryRules.Next(memory.Advisories, moment, arbiter);
        TimeSpan? heartbeat = Heartbeat.Next(memory.Heartbeat, moment, arbiter);

        return memory with
        {
            Plan = new CuePlan(arbiter.Started, tone, Level.ClampVolume(snapshot.Desk.VolumeDb), holdClock.LeftOut),
            Arbiter = arbiter.Memory,
            Alarms = alarms,
            Answer = answer,
            HoldClock = holdClock,
            Zone = zone,
            Advisories = advisories,
            Peak = peak,
            Heartbeat = heartbeat,
        };
    }

    /// <summary>What sounds after the event.</summary>
    /// <param name="memory">The memory after the event.</param>
    public static CuePlan Derive(CueMemory memory)
    {
        ArgumentNullException.ThrowIfNull(memory);
        return memory.Plan;
    }
}
