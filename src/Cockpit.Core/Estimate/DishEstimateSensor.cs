using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Core.Estimate;

/// <summary>Where the dish points by its sensor; degrees.</summary>
/// <param name="Azimuth">True azimuth, [0, 360).</param>
/// <param name="Elevation">Elevation.</param>
/// <param name="Spread">How far that may be off, one standard deviation for each axis.</param>
public readonly record struct SensedPlace(double Azimuth, double Elevation, double Spread);

/// <summary>The sensor on the dish in the estimate.</summary>
public sealed partial class DishEstimate
{
    /// <summary>The sensor is trusted below this spread and not above the other, beam widths: a cue by an unknown offset leads astray at once.</summary>
    private const double TrustBelow = 0.17;

    private const double TrustUpTo = 0.2;
    private const double MostFollow = 0.8;
    private const double FewFollow = 0.5;

    private bool _attached;
    private bool _trusted;
    private double _detachedAt = double.NaN;
    private double _follows;

    /// <summary>How it stands with the sensor.</summary>
    public SensorState Sensor => !_sensor.WasHeard ? SensorState.None
        : !_sensor.IsAwake(_now) ? SensorState.Asleep
        : _sensor.IsOdd(_now) || (_attached && _follows < FewFollow) ? SensorState.Off
        : _trusted ? SensorState.Trusted
        : SensorState.Learning;

    /// <summary>When a jump of its azimuth was last taken out, s; negative infinity when never.</summary>
    public double SensorJumpedAt => _sensor.JumpedAt;

    /// <summary>Whether it is seen how the dish moves, though not where it is.</summary>
    internal bool SeesMoves => _attached && _follows >= FewFollow && _sensor.HasAzimuth(_now) && _sensor.HasElevation(_now);

    /// <summary>Where the dish points now by the sensor, at the sensor's own rate; null while it is not trusted or tells one axis only.</summary>
    public SensedPlace? BySensor => _trusted && Sensor == SensorState.Trusted && _sensor.HasAzimuth(_now) && _sensor.HasElevation(_now) ? Sensed() : null;

    /// <summary>How far the sensor's azimuth is off where it points now, and how far its height, degrees; null for what it does not tell or while nothing has told.</summary>
    public (double? Azimuth, double? Elevation) SensorBias => (
        Sensor is SensorState.Learning or SensorState.Trusted && _sensor.HasAzimuth(_now) && (_attached || _sensor.IsSighted) ? Wrapped(_sensor.Azimuth.Told - Place().Azimuth) : null,
        Sensor is SensorState.Learning or SensorState.Trusted && _sensor.HasElevation(_now) && (_attached || _sensor.IsSighted) ? _sensor.Elevation.Now - Place().Elevation : null);

    /// <summary>How far what the sensor says may be off after that is taken off, one standard deviation across the axis and along the height, degrees.</summary>
    public (double Across, double Up) SensorDoubt
    {
        get
        {
            if (!_attached)
            {
                Core.Sensing.SensorBias bias = _sensor.After(_now);
                return (bias.DoubtAt(Angle.FromDegrees(_sensor.HasElevation(_now) ? _sensor.Elevation.Now : 0.0)).Degrees, bias.ElevationDoubt.Degrees);
            }

            (double sin, double cos) = Math.SinCos(Belief.MajorTilt * (Math.PI / 180.0));
            double major = Belief.SdMajor * Belief.SdMajor;
            double minor = Belief.SdMinor * Belief.SdMinor;
            return (Math.Sqrt((major * cos * cos) + (minor * sin * sin)), Math.Sqrt((major * sin * sin) + (minor * cos * cos)));
        }
    }

    /// <summary>A sensor on the dish told where it points.</summary>
    /// <param name="seconds">When it arrived, not before the last.</param>
    /// <param name="reading">What it said.</param>
    public void Sense(double seconds, in SensorReading reading)
    {
        _now = Math.Max(_now, seconds);
        _sensor.Take(seconds, reading);
    }

    /// <summary>The dish was pointed at something whose direction is known.</summary>
    /// <param name="seconds">When.</param>
    /// <param name="azimuth">True azimuth of it.</param>
    /// <param name="elevation">Its elevation; null where only the bearing is known.</param>
    /// <param name="spread">How far the dish may point beside it, one standard deviation for each axis.</param>
    public void Seen(double seconds, double azimuth, double? elevation, double spread)
    {
        if (!_started)
        {
            _sensor.Seen(seconds, azimuth, elevation, spread);
            Trust();
            return;
        }

        _cloud.Seen(azimuth, elevation, spread);
        Summarise();
        Trust();
    }

    /// <summary>The sensor's part of a block: it comes, moves the hypotheses, goes.</summary>
    private void Follow()
    {
        bool there = _sensor.WasHeard && _sensor.IsAwake(_block) && !_sensor.IsOdd(_block);
        if (!there)
        {
            if (_attached)
            {
                _cloud.Detach(_sensor.Azimuth.Block, _sensor.Elevation.Block);
                (_attached, _detachedAt) = (false, _block);
            }

            return;
        }

        if (_attached)
        {
            double azimuth = _sensor.Azimuth.Close();
            double elevation = _sensor.Elevation.Close();
            _cloud.Sense(new SensorStep(_sensor.HasAzimuth(_block), _sensor.HasElevation(_block), azimuth, elevation, _sensor.IsDisturbed(_block)));
            return;
        }

        _sensor.Wake();
        if (double.IsNaN(_detachedAt))
        {
            _cloud.Attach(
                _sensor.HasAzimuth(_block) ? _sensor.Azimuth.Block : null,
                _sensor.HasElevation(_block) ? _sensor.Elevation.Block : null,
                _sensor.After(_block),
                _sensor.IsSighted,
                _sensor.IsArbitrary);
        }
        else
        {
            _cloud.Back(_sensor.Azimuth.Block, _sensor.Elevation.Block, _block - _detachedAt);
        }

        _attached = true;
    }

    /// <summary>Whether it is known where the sensor points.</summary>
    private void Trust()
    {
        double most = (_trusted ? TrustUpTo : TrustBelow) * _setup.BeamWidth;
        if (_attached)
        {
            _follows = _cloud.FollowShare();
            _trusted = _follows > MostFollow && Belief.Sd < most;
            return;
        }

        (double across, double up) = SensorDoubt;
        _trusted = !_started && _sensor.IsSighted && Math.Sqrt(0.5 * ((across * across) + (up * up))) < most;
    }

    private SensedPlace Sensed()
    {
        (double azimuth, double elevation) = Place();
        (double across, double up) = SensorDoubt;
        return new SensedPlace(azimuth - (360.0 * Math.Floor(azimuth / 360.0)), elevation, Math.Sqrt(0.5 * ((across * across) + (up * up))));
    }

    /// <summary>The belief of the last block, and what the sensor moved since.</summary>
    private (double Azimuth, double Elevation) Place()
    {
        if (_attached)
        {
            return (
                Belief.Azimuth + (_sensor.HasAzimuth(_now) ? _sensor.Azimuth.Now - _sensor.Azimuth.Block : 0.0),
                Belief.Elevation + (_sensor.HasElevation(_now) ? _sensor.Elevation.Now - _sensor.Elevation.Block : 0.0));
        }

        (Angle sky, Angle high) = _sensor.After(_now).Corrected(Angle.FromDegrees(_sensor.Azimuth.Now), Angle.FromDegrees(_sensor.Elevation.Now));
        return (sky.Degrees, high.Degrees);
    }

    private static double Wrapped(double degrees) => degrees - (360.0 * Math.Round(degrees / 360.0));
}
