using System.Collections;
using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sensing;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>A rehearsed pass: simulated signal, dish and hand that publish the same events as the real ones.</summary>
/// <remarks>
/// Seeded: the same snapshots give the same events. The hand knows only what screen and cues say; where the dish really
/// points goes into <see cref="TruthRecorded"/> and nowhere else. Begun inside a pass, the dish stands near the satellite and
/// the first mark comes after 1.2 s; begun before, the dish is set up by compass at the first hold.
/// </remarks>
public sealed class SimulatedPass
{
    /// <summary>Steps caught up in one call at most: after a longer gap the simulation jumps.</summary>
    private const int MostSteps = 600;

    private const int StepsBetweenTruths = 5;
    private const double FirstErrorDegrees = 1.2;

    private readonly SimulatedReceiver _receiver;
    private readonly SimulatedDish _dish;
    private readonly HandMotor _motor;
    private readonly TrialSensor? _sensor;
    private SensorSample? _said;
    private readonly List<SessionEvent> _events = [];
    private Snapshot? _snapshot;
    private Script? _script;
    private DateTimeOffset _now;
    private long _steps;

    /// <summary>Sets up a rehearsal.</summary>
    /// <param name="track">The satellite's path over the station.</param>
    /// <param name="settings">Dish, carrier and seed; without a seed, seed 1.</param>
    /// <param name="skill">Whose hand.</param>
    /// <param name="obstructions">What stands in the way, and when.</param>
    /// <param name="world">Level, fading, wind; <see cref="WorldModel.Today"/> when not given.</param>
    /// <param name="compassErrorDegrees">How far the dish stands off in azimuth when it was set up by compass; by seed and skill when not given.</param>
    /// <param name="sensor">A sensor on the dish, and what is wrong with it; null for none.</param>
    public SimulatedPass(
        ITrack track,
        SessionSettings settings,
        HandSkill skill,
        ImmutableArray<Obstruction> obstructions = default,
        WorldModel? world = null,
        double? compassErrorDegrees = null,
        SensorWorld? sensor = null)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ulong seed = settings.Seed ?? 1;
        Beam beam = Beam.Of(settings.DishDiameterMetres, settings.Downlink);
        _receiver = new SimulatedReceiver(track, beam, settings.DishDiameterMetres, seed, obstructions, world);
        _dish = new SimulatedDish(seed, world);
        _sensor = sensor is null ? null : new TrialSensor(sensor, seed, disturbedAt: double.PositiveInfinity);
        _motor = new HandMotor(_receiver, _dish, skill, seed, world, compassErrorDegrees);
    }

    /// <summary>Goes on to the moment of a snapshot.</summary>
    /// <param name="snapshot">What screen and cues say now; call it ten times a second of session time.</param>
    /// <returns>A measurement of the feed "signal", keys that the hand pressed, twice a second the truth; nothing without a pass.</returns>
    public ImmutableArray<SessionEvent> Step(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (snapshot.Sky is not { } sky)
        {
            return [];
        }

        _snapshot = snapshot;
        _script ??= Begin(snapshot, sky);
        if (snapshot.Utc - _now > SimulatedReceiver.Step * MostSteps)
        {
            _now = snapshot.Utc - (SimulatedReceiver.Step * MostSteps);
        }

        SignalSample? sample = null;
        while (_now < snapshot.Utc)
        {
            _now += SimulatedReceiver.Step;
            sample = StepOnce(_script);
        }

        if (sample is not null)
        {
            _events.Insert(0, new SignalMeasured(Sources.Signal, sample));
        }

        if (_said is { } said)
        {
            _events.Add(new PointingMeasured(Sources.Pointing, said));
            _said = null;
        }

        ImmutableArray<SessionEvent> happened = [.. _events];
        _events.Clear();
        return happened;
    }

    private SignalSample StepOnce(Script script)
    {
        _dish.Step();
        SignalSample sample = _receiver.Measure(_now, _dish.Azimuth, _dish.Elevation);
        _motor.Sense();
        script.Step();
        _said = _sensor?.At(_steps * SimulatedReceiver.Step.TotalSeconds, _dish.Azimuth, _dish.Elevation) ?? _said;
        if (_steps++ % StepsBetweenTruths == 0)
        {
            _events.Add(new TruthRecorded(_dish.Azimuth, _dish.Elevation, new Decibels(Math.Round(_receiver.MarginDb, 2))));
        }

        return sample;
    }

    private Script Begin(Snapshot snapshot, SkyNow sky)
    {
        _now = snapshot.Utc - SimulatedReceiver.Step;
        _events.Add(new FeedConnected(Sources.Signal, "simulated receiver"));
        if (_sensor is not null)
        {
            _events.Add(new FeedConnected(Sources.Pointing, "simulated sensor"));
        }

        if (snapshot.Desk.Head is { } head)
        {
            return new Script(new TurnedHead(_motor, () => _snapshot ?? snapshot, head).Run());
        }

        CuedHand hand = new(_motor, () => _snapshot ?? snapshot, key => _events.Add(new OperatorPressed(key)));
        bool inPass = sky.Phase is PassPhase.Climbing or PassPhase.Sinking;
        if (inPass && sky.Now is { } look)
        {
            _dish.HeadElevation = look.Elevation.Degrees + (FirstErrorDegrees * _motor.Chance.NextNormal());
            _dish.HeadAzimuth = look.Azimuth.Degrees + (FirstErrorDegrees * _motor.Chance.NextNormal() / SimulatedDish.PanShare(_dish.HeadElevation));
            return new Script(hand.RunFromMark());
        }

        if (sky.Holds is [var first, ..])
        {
            SkyPlace stands = first.Flown();
            _dish.HeadElevation = stands.Elevation.Degrees + _motor.InclinometerError;
            _dish.HeadAzimuth = stands.Azimuth.Degrees + _motor.CompassError;
        }

        return new Script(sky.Phase is PassPhase.Over ? Rest() : hand.Run());
    }

    private static IEnumerator Rest()
    {
        while (true)
        {
            yield return null;
        }
    }
}
