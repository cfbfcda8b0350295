using System.Collections;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>The head that a person turns by keys: it follows what its scales are to read, no faster than a hand. Degrees.</summary>
/// <remarks>
/// The scales were set by compass and inclinometer, so that the beam is off them by the errors of those, by sag and by wind: nobody is told
/// by how much. The steps themselves are exact.
/// </remarks>
/// <param name="motor">The hand whose errors of set-up hold.</param>
/// <param name="snapshot">The moment now.</param>
/// <param name="head">What the scales read at the begin.</param>
internal sealed class TurnedHead(HandMotor motor, Func<Snapshot> snapshot, HeadNow head)
{
    private readonly double _step = motor.Skill.SlewDegreesPerSec * SimulatedReceiver.Step.TotalSeconds;
    private HeadNow _read = head;
    private double _pan;
    private double _tilt;

    public IEnumerator Run()
    {
        motor.Dish.HeadElevation = _read.Elevation.Degrees + motor.InclinometerError;
        motor.Dish.HeadAzimuth = _read.Azimuth.Degrees + motor.CompassError;
        while (true)
        {
            HeadNow wanted = snapshot().Desk.Head ?? _read;
            _pan += (wanted.Azimuth - _read.Azimuth).WrappedToHalfTurn().Degrees;
            _tilt += (wanted.Elevation - _read.Elevation).Degrees;
            _read = wanted;
            double pan = Math.Clamp(_pan, -_step, _step);
            double tilt = Math.Clamp(_tilt, -_step, _step);
            (_pan, _tilt) = (_pan - pan, _tilt - tilt);
            motor.Dish.HeadAzimuth += pan;
            motor.Dish.HeadElevation += tilt;
            yield return null;
        }
    }
}
