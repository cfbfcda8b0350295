using Cockpit.Core.Aim;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sky;

/// <summary>What every later step of the fold is given: the event, the session and the sky at that moment.</summary>
/// <param name="Settings">What the session is about.</param>
/// <param name="Plan">The pass and what was worked out for it; null without a pass.</param>
/// <param name="Sky">Where the satellite is; null without a pass.</param>
/// <param name="Envelope">The event.</param>
public sealed record Scene(SessionSettings Settings, SkyPlan? Plan, SkyNow? Sky, Envelope Envelope)
{
    private static readonly SessionSettings Unopened = new()
    {
        ProgramVersion = "",
        Kind = SessionKind.Other,
        StationName = "",
        Station = default,
        SatelliteName = "",
    };

    /// <summary>The scene of an event.</summary>
    /// <param name="memory">The sky's memory after it.</param>
    /// <param name="envelope">The event.</param>
    public static Scene Of(SkyMemory memory, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        return new Scene(memory.Settings ?? Unopened, memory.Plan, SkyComputer.Derive(memory, envelope), envelope);
    }

    /// <summary>UTC of the event: for places on the orbit and for what is shown, never for ages.</summary>
    public DateTimeOffset Utc => Envelope.Utc;

    /// <summary>Session time of the event; ages are differences of it, so that no correction of the clock touches them.</summary>
    public TimeSpan Elapsed => Envelope.Elapsed;

    /// <summary>Whether this event opens the session: every memory starts afresh.</summary>
    public bool Opens => Envelope.Event is SessionOpened;

    /// <summary>The key that was pressed; null when it was none.</summary>
    public OperatorKey? Key => (Envelope.Event as OperatorPressed)?.Key;

    /// <summary>Between AOS and LOS.</summary>
    public bool InPass => Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;

    /// <summary>The beam of the session's dish.</summary>
    public Beam Beam => Beam.Of(Settings.DishDiameterMetres, Settings.Downlink);

    /// <summary>Real time since an earlier moment of the session: people and senders live in it, whatever the rate of the session.</summary>
    /// <param name="since">Session time of that moment; null when it never was.</param>
    public TimeSpan? Age(TimeSpan? since) => (Elapsed - since) / Settings.Speed;

    /// <summary>The session's time that passes in a span of real time.</summary>
    public TimeSpan Session(TimeSpan real) => real * Settings.Speed;

    /// <summary>The hold of the plan of the pass at an instant: the first before it, null after it.</summary>
    public Hold? HoldAt(DateTimeOffset utc)
    {
        if (Sky is not null)
        {
            foreach (Hold hold in Sky.Holds)
            {
                if (utc < hold.ToUtc)
                {
                    return hold;
                }
            }
        }

        return null;
    }
}
