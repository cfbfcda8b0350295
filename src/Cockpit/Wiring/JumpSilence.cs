using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Keeps a replay quiet while it jumps: minutes of events are folded in an instant, and their cues would all sound at once.</summary>
/// <remarks>Events are counted in on the thread of the player and out on the thread of the fold, which gives one snapshot for each.</remarks>
public sealed class JumpSilence
{
    private long _played;
    private long _folded;
    private long _quietTo;

    /// <summary>An event goes to the fold.</summary>
    public void Played() => Interlocked.Increment(ref _played);

    /// <summary>Makes a jump; what it plays is not heard.</summary>
    /// <param name="jump">Plays all events up to the target before it returns.</param>
    public void During(Action jump)
    {
        ArgumentNullException.ThrowIfNull(jump);
        Interlocked.Exchange(ref _quietTo, long.MaxValue);
        jump();
        Interlocked.Exchange(ref _quietTo, Interlocked.Read(ref _played));
    }

    /// <summary>What is to be heard of the snapshot of the next event; to be called once for each.</summary>
    public CuePlan Heard(CuePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return ++_folded <= Interlocked.Read(ref _quietTo) ? plan with { Started = [], Peak = null } : plan;
    }
}
