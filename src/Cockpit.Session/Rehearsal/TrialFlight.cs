using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>One simulated pass while it is flown, ten steps a second.</summary>
internal sealed class TrialFlight(
    Trial trial, CircularPass plan, ITrack truth, SessionSettings settings, SimulatedReceiver receiver, SimulatedDish dish)
{
    /// <summary>The receiver runs before the rise, so its floor is seen with the satellite below the horizon.</summary>
    private static readonly TimeSpan BeforeRise = TimeSpan.FromSeconds(150);

    private static readonly TimeSpan FirstMinute = TimeSpan.FromSeconds(60);
    private const int CalibratedAt = -1450;
    private const double KnownToDegrees = 1.5;
    private const double LowDegrees = 10.0;
    private const int StepsBetweenComparisons = 10;

    private readonly SkyPlan _sky = SkyPlan.Of(plan, ClosedLoop.Rise, plan.Pass, settings);
    private readonly int _steps = (int)Math.Floor(plan.Duration / SimulatedReceiver.Step);
    private readonly int _before = (int)(BeforeRise / SimulatedReceiver.Step);
    private int _lost;
    private int _first;
    private int _low;
    private int _marks;
    private double _squares;
    private int _believed;
    private int _inHalf;
    private int _inMost;
    private readonly List<double> _errors = [];
    private readonly TrialSensor? _sensor = UsesSensor(trial.Steering)
        ? new TrialSensor(
            (trial.Sensor ?? new SensorWorld()) with { ElevationOnly = trial.Steering == Steering.Inclinometer },
            ClosedLoop.SeedOf(trial),
            (ClosedLoop.Disturbed(plan) - ClosedLoop.Rise).TotalSeconds)
        : null;

    private bool HasLevel => trial.Steering is not (Steering.Sensor or Steering.RawSensor);

    private static bool UsesSensor(Steering steering) => steering is Steering.Sensor or Steering.SensorAndSignal or Steering.Inclinometer or Steering.RawSensor;

    public PassScore ByRule(Func<DateTimeOffset, (Angle Azimuth, Angle Elevation)> pointing)
    {
        for (int i = -_before; i < _steps; i++)
        {
            (Angle azimuth, Angle elevation) = pointing(At(i));
            Measure(i, azimuth, elevation);
        }

        return Score(_sky.Holds.Length - 1);
    }

    public (Angle Azimuth, Angle Elevation) PlanAt(DateTimeOffset utc)
    {
        Hold hold = _sky.Holds.FirstOrDefault(h => utc < h.ToUtc) ?? _sky.Holds[^1];
        SkyPlace stands = hold.Flown();
        return (stands.Azimuth, stands.Elevation);
    }

    public PassScore ByHand(HandMotor motor)
    {
        bool guided = trial.Steering != Steering.Unguided;
        LookAngles rise = plan.Pass.Aos.Look;
        dish.HeadAzimuth = rise.Azimuth.Degrees + motor.CompassError;
        dish.HeadElevation = rise.Elevation.Degrees + motor.InclinometerError;
        DateTimeOffset now = ClosedLoop.Rise;
        List<OperatorKey> keys = [];
        GuidanceRun run = new(_sky, settings, At(-_before));
        Script script = new(guided
            ? new CuedHand(motor, () => run.Snapshot, keys.Add).Run()
            : new UnguidedHand(motor, () => LookAt(now), () => LookAt(now.AddSeconds(5))).Run());
        for (int i = -_before; i < _steps; i++)
        {
            now = At(i);
            if (i >= 0 || trial.World.WindFromStart)
            {
                dish.Step();
            }

            SignalSample sample = Measure(i, dish.Azimuth, dish.Elevation);
            motor.Sense();
            if (guided)
            {
                Point(run, i);
                run.Fold(now, Sources.Signal, IsDroppedOut(now) || !HasLevel ? new Ticked() : new SignalMeasured(Sources.Signal, AsFed(sample)));
                Compare(run.Dish, i);
            }

            if (guided || i >= 0)
            {
                script.Step();
            }

            foreach (OperatorKey key in keys)
            {
                _marks += key == OperatorKey.Peaked ? 1 : 0;
                run.Fold(now, Sources.Keys, new OperatorPressed(key));
            }

            keys.Clear();
        }

        return Score(motor.Moves);
    }

    private LookAngles LookAt(DateTimeOffset utc) => plan.At(utc).GetValueOrDefault();

    private static DateTimeOffset At(int step) => ClosedLoop.Rise + (SimulatedReceiver.Step * step);

    private void Point(GuidanceRun run, int step)
    {
        if (_sensor?.At(step * SimulatedReceiver.Step.TotalSeconds, dish.Azimuth, dish.Elevation) is not { } said)
        {
            return;
        }

        DateTimeOffset now = At(step);
        if (trial.Steering == Steering.RawSensor)
        {
            if (run.Dish is { Started: true } raw && said is { Azimuth: { } azimuth, Elevation: { } elevation })
            {
                raw.Known(azimuth.Degrees, elevation.Degrees);
            }

            return;
        }

        run.Fold(now, Sources.Pointing, new PointingMeasured(Sources.Pointing, said));
        if (step == CalibratedAt && (trial.Steering == Steering.Sensor || trial.Sensor is { Sighted: true }))
        {
            // What it is pointed at stands by chance where the pass begins.
            (double beside, double above) = _sensor.Beside();
            run.Fold(now, Sources.Keys, new DirectionKnown(
                (dish.Azimuth + Angle.FromDegrees(KnownToDegrees * beside)).WrappedToTurn(), dish.Elevation + Angle.FromDegrees(KnownToDegrees * above), Angle.FromDegrees(KnownToDegrees), "a landmark"));
        }
    }

    private bool IsDroppedOut(DateTimeOffset now)
    {
        DateTimeOffset from = ClosedLoop.Disturbed(plan);
        return now >= from && now < from.AddSeconds(trial.World.DropOutSeconds);
    }

    private SignalSample AsFed(SignalSample sample)
    {
        sample = trial.World.RelativeLevelOnly ? sample with { SnrDb = null } : sample;
        return trial.World.TellsLines ? sample : sample with { Frames = null, Locked = null };
    }

    private void Compare(DishEstimate? belief, int step)
    {
        if (belief is not { Started: true })
        {
            return;
        }

        if (trial.Steering == Steering.KnownDish)
        {
            belief.Known(dish.Azimuth.Degrees, dish.Elevation.Degrees);
        }

        if (step < 0 || step % StepsBetweenComparisons != 0)
        {
            return;
        }

        double off = AimErrors.Separation(
            dish.Azimuth, dish.Elevation, Angle.FromDegrees(belief.Belief.Azimuth), Angle.FromDegrees(belief.Belief.Elevation)).Degrees;
        _believed++;
        _inHalf += off <= belief.Belief.R50 ? 1 : 0;
        _inMost += off <= belief.Belief.R95 ? 1 : 0;
        if (_errors.Count < PassScore.ErrorsAt.Length && step >= PassScore.ErrorsAt[_errors.Count] * StepsBetweenComparisons)
        {
            _errors.Add(off);
        }
    }

    private SignalSample Measure(int step, Angle azimuth, Angle elevation)
    {
        DateTimeOffset now = At(step);
        SignalSample sample = receiver.Measure(now, azimuth, elevation);
        if (step < 0)
        {
            return sample;
        }

        double off = receiver.OffAxis?.Degrees ?? 0.0;
        _squares += off * off;
        if (receiver.LineLost)
        {
            bool first = now - ClosedLoop.Rise < FirstMinute;
            _lost++;
            _first += first ? 1 : 0;
            _low += !first && truth.At(now)?.Elevation.Degrees < LowDegrees ? 1 : 0;
        }

        return sample;
    }

    private PassScore Score(int moves) => new(
        (double)_lost / _steps,
        (double)_first / _steps,
        (double)_low / _steps,
        Math.Sqrt(_squares / _steps),
        moves,
        _marks,
        _believed,
        _inHalf,
        _inMost,
        [.. _errors]);
}
