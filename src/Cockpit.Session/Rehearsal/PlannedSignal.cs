using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>What the simulated receiver measures along a pass when no hand steers the dish.</summary>
public sealed class PlannedSignal
{
    /// <summary>Steps caught up in one call at most: after a longer gap the simulation jumps.</summary>
    private const int MostSteps = 600;

    private readonly PlannedDish _dish;
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
        _dish = new PlannedDish(plan, motion);
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
            (Angle azimuth, Angle elevation) = _dish.At(now);
            _sample = _receiver.Measure(now, azimuth, elevation);
        }

        _now = now;
        return _sample;
    }
}
