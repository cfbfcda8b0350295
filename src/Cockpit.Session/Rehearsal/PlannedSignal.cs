using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>How the dish of a signal without a hand moves.</summary>
public enum DishMotion
{
    /// <summary>From hold to hold of the plan, each at its time.</summary>
    Plan = 0,

    /// <summary>It stands where the pass culminates.</summary>
    Still = 1,
}

/// <summary>What the simulated receiver measures along a pass when no hand steers the dish.</summary>
public sealed class PlannedSignal
{
    /// <summary>Steps caught up in one call at most: after a longer gap the simulation jumps.</summary>
    private const int MostSteps = 600;

    private readonly SkyPlan _plan;
    private readonly DishMotion _motion;
    private readonly SimulatedReceiver _receiver;
    private DateTimeOffset? _now;
    private SignalSample? _sample;

    /// <summary>Sets up a receiver.</summary>
    /// <param name="plan">The pass and its holds.</param>
    /// <param name="settings">Dish and carrier.</param>
    /// <param name="motion">How the dish moves.</param>
    /// <param name="seed">Seed of fading, noise and offset.</param>
    public PlannedSignal(SkyPlan plan, SessionSettings settings, DishMotion motion, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(settings);
        _plan = plan;
        _motion = motion;
        _receiver = new SimulatedReceiver(plan.Track, Beam.Of(settings.DishDiameterMetres, settings.Downlink), settings.DishDiameterMetres, seed);
    }

    /// <summary>The last measurement at an instant, UTC; to be asked in the order of time.</summary>
    public SignalSample At(DateTimeOffset utc)
    {
        DateTimeOffset now = _now ?? utc - SimulatedReceiver.Step;
        now = utc - now > SimulatedReceiver.Step * MostSteps ? utc - (SimulatedReceiver.Step * MostSteps) : now;
        while (_sample is null || now + SimulatedReceiver.Step <= utc)
        {
            now += SimulatedReceiver.Step;
            (Angle azimuth, Angle elevation) = DishAt(now);
            _sample = _receiver.Measure(now, azimuth, elevation);
        }

        _now = now;
        return _sample;
    }

    private (Angle Azimuth, Angle Elevation) DishAt(DateTimeOffset utc)
    {
        DateTimeOffset when = _motion == DishMotion.Still ? _plan.Pass.Tca.Utc : utc;
        if (_plan.Holds.LastOrDefault(h => h.FromUtc <= when) is { } hold)
        {
            SkyPlace stands = hold.Flown();
            return (stands.Azimuth, stands.Elevation);
        }

        LookAngles rise = _plan.Pass.Aos.Look;
        return (rise.Azimuth, rise.Elevation);
    }
}
