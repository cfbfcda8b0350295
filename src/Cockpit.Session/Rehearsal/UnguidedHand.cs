using System.Collections;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>The hand of someone who has only the level and a paper table of the pass: the yardstick for any guidance.</summary>
/// <remarks>Its habits (when to act, two looks before believing) are tuned in its own favour. Degrees, dB.</remarks>
internal sealed class UnguidedHand
{
    private static readonly double[] SearchRight = [0, 10, -10, 20, -20, 30, -30];
    private static readonly double[] SearchUp = [0, 8, -8];

    private readonly HandMotor _motor;
    private readonly Func<LookAngles> _satellite;
    private readonly Func<LookAngles> _satelliteSoon;
    private readonly double _memoryError;
    private double _directionError;

    /// <param name="motor">The hand.</param>
    /// <param name="satellite">The paper table: where the satellite is now.</param>
    /// <param name="satelliteSoon">The same a few seconds ahead, which gives the direction of the track.</param>
    public UnguidedHand(HandMotor motor, Func<LookAngles> satellite, Func<LookAngles> satelliteSoon)
    {
        _motor = motor;
        _satellite = satellite;
        _satelliteSoon = satelliteSoon;
        _memoryError = motor.Skill.MemoryDegrees * motor.Chance.NextNormal();
        _directionError = motor.Skill.TrackDirectionDegrees * motor.Chance.NextNormal();
    }

    public IEnumerator Run()
    {
        double justSeen = _motor.Skill.JustSeenDb;
        double? reference = null;
        double before = 0.0;
        while (true)
        {
            yield return _motor.Gap();
            yield return _motor.Look();
            if (!_motor.SignalSeen)
            {
                yield return _motor.Look();
                if (!_motor.SignalSeen)
                {
                    yield return Search();
                    reference = null;
                }
            }

            if (reference is null)
            {
                yield return Climb();
                yield return _motor.LookTwice();
                reference = before = _motor.Seen;
                continue;
            }

            double average = (_motor.Seen + before) / 2.0;
            before = _motor.Seen;
            double held = Math.Max(average, reference.Value - (0.02 * (_motor.Skill.GapSeconds + _motor.Skill.LookSeconds)));
            if (held - average > _motor.Skill.DropDb)
            {
                (double right, double up) = Ahead(0.0);
                yield return _motor.MoveOnSky(right * _motor.Skill.FollowDegrees, up * _motor.Skill.FollowDegrees);
                yield return _motor.React();
                yield return _motor.LookTwice();
                if (_motor.Seen < average + (0.3 * justSeen))
                {
                    if (_motor.Seen < average - (0.5 * justSeen))
                    {
                        yield return _motor.MoveOnSky(-right * _motor.Skill.FollowDegrees, -up * _motor.Skill.FollowDegrees);
                    }

                    yield return Climb();
                    yield return _motor.LookTwice();
                }

                before = _motor.Seen;
                held = Math.Max(_motor.Seen, held - 1.0);
            }

            reference = held;
        }
    }

    /// <summary>Tries ahead, one side, the other, back; goes on where it gets better.</summary>
    private IEnumerator Climb()
    {
        double justSeen = _motor.Skill.JustSeenDb;
        double step = _motor.Skill.StepDegrees;
        yield return _motor.Look();
        double level = _motor.Seen;
        double side = _motor.Chance.NextUnit() < 0.5 ? 90.0 : -90.0;
        foreach (double turn in new[] { 0.0, side, -side, 180.0 })
        {
            (double right, double up) = Ahead(turn);
            yield return _motor.MoveOnSky(right * step, up * step);
            yield return _motor.React();
            yield return _motor.Look();
            if (_motor.Seen > level + (0.7 * justSeen))
            {
                yield return GoOn(right, up, step);
                _directionError += Math.Abs(turn) < 180.0 ? 0.3 * turn : 0.0;
                yield break;
            }

            if (_motor.Seen < level - (0.7 * justSeen))
            {
                yield return _motor.MoveOnSky(-right * step, -up * step);
                yield return _motor.React();
            }
            else
            {
                level = (level + _motor.Seen) / 2.0;
            }
        }
    }

    private IEnumerator GoOn(double right, double up, double step)
    {
        double justSeen = _motor.Skill.JustSeenDb;
        double level = _motor.Seen;
        for (int more = 0; more < 4; more++)
        {
            yield return _motor.MoveOnSky(0.7 * right * step, 0.7 * up * step);
            yield return _motor.React();
            yield return _motor.Look();
            if (_motor.Seen < level + (0.5 * justSeen))
            {
                if (_motor.Seen < level - (0.7 * justSeen))
                {
                    yield return _motor.MoveOnSky(-0.7 * right * step, -0.7 * up * step);
                }

                yield break;
            }

            level = _motor.Seen;
        }
    }

    private IEnumerator Search()
    {
        for (int round = 0; ; round++)
        {
            foreach (double right in SearchRight)
            {
                LookAngles table = _satellite();
                double elevation = table.Elevation.Degrees + _motor.InclinometerError + SearchUp[round % SearchUp.Length];
                double azimuth = table.Azimuth.Degrees + _motor.CompassError + _memoryError + (right / SimulatedDish.PanShare(elevation));
                yield return _motor.AimAt(azimuth, elevation);
                yield return _motor.React();
                yield return _motor.Look();
                if (_motor.SignalSeen)
                {
                    yield break;
                }
            }
        }
    }

    /// <summary>The believed direction of the track, turned by degrees: right and up, length one.</summary>
    private (double Right, double Up) Ahead(double turn)
    {
        LookAngles now = _satellite();
        LookAngles soon = _satelliteSoon();
        AimError way = AimErrors.Between(now.Azimuth, now.Elevation, soon.Azimuth, soon.Elevation);
        Angle angle = Angle.FromRadians(Math.Atan2(way.Up.Radians, way.Right.Radians) + Angle.FromDegrees(_directionError + turn).Radians);
        return (angle.Cos(), angle.Sin());
    }
}
