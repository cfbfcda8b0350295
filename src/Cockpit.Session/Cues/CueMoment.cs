using Cockpit.Core.Aim;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>One step of the fold, as the cue rules see it.</summary>
/// <param name="Snapshot">The moment, its cues still silent.</param>
/// <param name="Event">What happened.</param>
internal readonly record struct CueMoment(Snapshot Snapshot, SessionEvent Event)
{
    /// <summary>Session time.</summary>
    public TimeSpan Elapsed => Snapshot.Elapsed;

    /// <summary>Where the dish is and must go.</summary>
    public AimNow Aim => Snapshot.Aim;

    /// <summary>Between AOS and LOS.</summary>
    public bool InPass => Snapshot.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;

    /// <summary>From a minute before AOS to LOS.</summary>
    public bool NearPass => InPass || Snapshot.Sky?.Phase is PassPhase.Ready;

    /// <summary>A sensor on the dish says where it points.</summary>
    public bool HasSensor => Aim.Dish?.Origin == PointingOrigin.Sensor;

    /// <summary>The session's time that passes while a listener lives through these seconds.</summary>
    public TimeSpan Real(double seconds) => TimeSpan.FromSeconds(seconds * Speed);

    /// <summary>The key that was pressed, when this step is one.</summary>
    public OperatorKey? Key => (Event as OperatorPressed)?.Key;

    private double Speed => Snapshot.Settings is { Speed: > 1.0 } settings ? settings.Speed : 1.0;
}
