using System.Collections;
using Cockpit.Core.Aim;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>The hand of someone who does what the program calls, and nothing else. Degrees.</summary>
/// <remarks>It knows what screen and sound say: the amounts of a call, or the reading of the compass that a call asks for.</remarks>
internal sealed class CuedHand
{
    private const double SetUpSeconds = 3.0;

    private readonly HandMotor _motor;
    private readonly Func<Snapshot> _snapshot;
    private readonly Action<OperatorKey> _press;

    /// <param name="motor">The hand.</param>
    /// <param name="snapshot">What the screen shows now.</param>
    /// <param name="press">Presses a key.</param>
    public CuedHand(HandMotor motor, Func<Snapshot> snapshot, Action<OperatorKey> press)
    {
        _motor = motor;
        _snapshot = snapshot;
        _press = press;
    }

    /// <summary>Marks at once: the rehearsal begins with the dish on the satellite.</summary>
    public IEnumerator RunFromMark()
    {
        yield return HandMotor.Wait(1.2);
        _press(OperatorKey.Peaked);
        yield return null;
        yield return FollowCalls();
    }

    public IEnumerator Run()
    {
        if (_snapshot().Aim.Word == AimWord.Point)
        {
            yield return HandMotor.Wait(SetUpSeconds);
            _press(OperatorKey.Moved);
            yield return null;
        }

        yield return FollowCalls();
    }

    private IEnumerator FollowCalls()
    {
        DateTimeOffset? last = null;
        while (true)
        {
            AimNow aim = _snapshot().Aim;
            if (aim is not { Word: AimWord.Move, Nudge: { } nudge } || aim.NudgeAt == last)
            {
                yield return null;
                continue;
            }

            last = aim.NudgeAt;
            if (_motor.Chance.NextUnit() < _motor.Skill.Lapse)
            {
                yield return null;
                continue;
            }

            yield return Follow(nudge, aim);
            if (_motor.Chance.NextUnit() < _motor.Skill.ConfirmShare && _snapshot().Aim is { Word: AimWord.Move } now && now.NudgeAt == last)
            {
                _press(OperatorKey.Moved);
            }

            yield return null;
        }
    }

    private IEnumerator Follow(AimError nudge, AimNow aim)
    {
        yield return _motor.ReactToCue();
        if (aim.Compass is { } read && _motor.Skill.HasCompass)
        {
            yield return _motor.AimAt(read.Azimuth.Degrees + _motor.CompassError, read.Elevation.Degrees + _motor.InclinometerError);
        }
        else if (aim.Mount == Mount.Free)
        {
            yield return _motor.MoveOnSky(Read(nudge.Right.Degrees), Read(nudge.Up.Degrees));
        }
        else
        {
            double share = SimulatedDish.PanShare(_motor.Dish.HeadElevation);
            double pan = Read(nudge.Pan.Degrees * share) / share;
            yield return _motor.Move(pan, Read(nudge.Tilt.Degrees));
        }
    }

    private double Read(double degrees) => Math.Round(degrees) + (_motor.Skill.ReadDegrees * _motor.Chance.NextNormal());
}
