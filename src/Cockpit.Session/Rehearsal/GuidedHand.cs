using System.Collections;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>The hand of someone who listens to the program: nudges when called, peaks and searches when asked. Degrees, dB.</summary>
internal sealed class GuidedHand
{
    private const double SeenChange = 0.5;
    private const double GoodEnoughDb = 1.2;
    private const int PushesOneWay = 3;
    private const int Crosses = 2;
    private static readonly double[] SearchRight = [0, 10, -10, 20, -20, 30, -30];
    private static readonly double[] SearchUp = [0, 8, -8];

    private readonly HandMotor _motor;
    private readonly Func<Snapshot> _snapshot;
    private readonly Action<OperatorKey> _press;
    private bool _improved;

    /// <param name="motor">The hand.</param>
    /// <param name="snapshot">What the screen shows now.</param>
    /// <param name="press">Presses a key.</param>
    public GuidedHand(HandMotor motor, Func<Snapshot> snapshot, Action<OperatorKey> press)
    {
        _motor = motor;
        _snapshot = snapshot;
        _press = press;
    }

    private AimNow Aim => _snapshot().Aim;

    /// <summary>Marks at once: the rehearsal begins with the dish on the satellite.</summary>
    public IEnumerator RunFromMark()
    {
        yield return HandMotor.Wait(1.2);
        _press(OperatorKey.Peaked);
        yield return null;
        yield return Run();
    }

    public IEnumerator Run()
    {
        while (true)
        {
            switch (Aim.Word)
            {
                case AimWord.Point when Aim.Dish is null:
                    yield return HandMotor.Wait(3.0);
                    _press(OperatorKey.Moved);
                    yield return null;
                    break;
                case AimWord.Move:
                    yield return Nudge();
                    break;
                case AimWord.Peak:
                    yield return Peak();
                    break;
                case AimWord.Search:
                    yield return Search();
                    break;
                default:
                    yield return null;
                    break;
            }
        }
    }

    private IEnumerator Nudge()
    {
        DateTimeOffset? call = Aim.NudgeAt;
        AimError? nudge = Aim.Nudge;
        if (nudge is { } move && _motor.Chance.NextUnit() >= _motor.Skill.Lapse)
        {
            yield return _motor.ReactToCue();
            double share = SimulatedDish.PanShare(_motor.Dish.HeadElevation);
            double pan = Math.Round(move.Pan.Degrees * share) + (_motor.Skill.ReadDegrees * _motor.Chance.NextNormal());
            double tilt = Math.Round(move.Tilt.Degrees) + (_motor.Skill.ReadDegrees * _motor.Chance.NextNormal());
            yield return _motor.Move(pan / share, tilt);
            if (_motor.Chance.NextUnit() < _motor.Skill.ConfirmShare && StillCalled(call))
            {
                _press(OperatorKey.Moved);
            }

            yield return null;
        }

        while (StillCalled(call))
        {
            yield return null;
        }
    }

    private bool StillCalled(DateTimeOffset? call) => Aim.Word == AimWord.Move && Aim.NudgeAt == call;

    /// <summary>Crosses of small moves, ahead and behind, left and right, until the level is about as expected; then says "peaked".</summary>
    private IEnumerator Peak()
    {
        yield return _motor.React();
        yield return _motor.Look();
        for (int cross = 0; cross < Crosses && !Done(); cross++)
        {
            foreach (double[] axis in new double[][] { [0.0, 180.0], [90.0, -90.0] })
            {
                yield return Push(axis[0]);
                if (!_improved && !Done())
                {
                    yield return Push(axis[1]);
                }
            }
        }

        if (_motor.SignalSeen && Aim.Word == AimWord.Peak)
        {
            _press(OperatorKey.Peaked);
        }

        yield return null;
    }

    /// <summary>Moves one way as long as the level rises; back one step when it falls.</summary>
    private IEnumerator Push(double turn)
    {
        _improved = false;
        for (int push = 0; push < PushesOneWay; push++)
        {
            double level = _motor.Seen;
            (double right, double up) = Ahead(turn);
            double step = _motor.Skill.StepDegrees * (push == 0 ? 1.0 : 0.7);
            yield return _motor.MoveOnSky(right * step, up * step);
            yield return _motor.React();
            yield return _motor.Look();
            if (_motor.Seen < level - (SeenChange * _motor.Skill.JustSeenDb))
            {
                yield return _motor.MoveOnSky(-right * step, -up * step);
                yield return _motor.React();
                yield return _motor.Look();
                yield break;
            }

            if (_motor.Seen < level + (SeenChange * _motor.Skill.JustSeenDb) || Done())
            {
                yield break;
            }

            _improved = true;
        }
    }

    private bool Done() => AsExpected() || Aim.Word is AimWord.Hold or AimWord.Next;

    /// <summary>The last look showed about what a well-pointed dish should show.</summary>
    private bool AsExpected() => _snapshot().Link.ExpectedDb is { } expected
        && _motor.Seen > expected - SimulatedReceiver.SnrAtThresholdDb - GoodEnoughDb;

    private IEnumerator Search()
    {
        yield return _motor.ReactToCue();
        for (int i = 0; Aim.Word == AimWord.Search; i++)
        {
            if (Aim.Target is not { } target)
            {
                yield return null;
                continue;
            }

            double elevation = target.Elevation.Degrees + _motor.InclinometerError + SearchUp[i / SearchRight.Length % SearchUp.Length];
            double azimuth = target.Azimuth.Degrees + _motor.CompassError + (SearchRight[i % SearchRight.Length] / SimulatedDish.PanShare(elevation));
            yield return _motor.AimAt(azimuth, elevation);
            yield return _motor.React();
            yield return _motor.Look();
            while (_motor.SignalSeen && Aim.Word == AimWord.Search)
            {
                yield return _motor.Look();
            }
        }
    }

    /// <summary>The direction of the track on the sky as the screen shows it, turned by degrees: right and up, length one.</summary>
    private (double Right, double Up) Ahead(double turn)
    {
        if (_snapshot().Sky is not { Now: { } now, Ahead: [var soon, ..] })
        {
            return (1.0, 0.0);
        }

        AimError way = AimErrors.Between(now.Azimuth, now.Elevation, soon.Azimuth, soon.Elevation);
        Angle angle = Angle.FromRadians(Math.Atan2(way.Up.Radians, way.Right.Radians) + Angle.FromDegrees(turn).Radians);
        return (angle.Cos(), angle.Sin());
    }
}
