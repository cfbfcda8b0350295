using Cockpit.Core.Chance;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>The sensor on the dish of a simulated pass. Degrees, seconds.</summary>
/// <remarks>Its chance is a stream of its own and does not depend on the dish: the same seed is the same sensor for every hand, and the world is the same without it.</remarks>
internal sealed class TrialSensor
{
    private const double StepSeconds = 0.1;

    private readonly SensorWorld _world;
    private readonly Xoshiro256 _chance;
    private readonly double _disturbedAt;
    private readonly double _azimuthError;
    private readonly double _elevationError;
    private readonly double _right;
    private readonly double _sineIron;
    private readonly double _cosineIron;
    private readonly (double Azimuth, double Right, double Up) _anew;
    private readonly Queue<(double Azimuth, double Elevation)> _late = new();
    private double _wander;
    private double _drift;

    public TrialSensor(SensorWorld world, ulong seed, double disturbedAt)
    {
        (_world, _disturbedAt) = (world, disturbedAt);
        _chance = new Xoshiro256(seed, 6);
        double constant = world.AzimuthDegrees * _chance.NextNormal();
        double zero = 360.0 * _chance.NextUnit();
        _azimuthError = world.Arbitrary ? zero : Math.Clamp(constant, -world.MostAzimuthDegrees, world.MostAzimuthDegrees);
        _elevationError = world.ElevationDegrees * _chance.NextNormal();
        _right = world.RightDegrees * _chance.NextNormal();
        _sineIron = world.OwnIronDegrees * _chance.NextNormal();
        _cosineIron = world.OwnIronDegrees * _chance.NextNormal();
        _anew = (5.0 * _chance.NextNormal(), 3.0 * _chance.NextNormal(), 3.0 * _chance.NextNormal());
        _wander = _chance.NextNormal();
    }

    /// <summary>A direction before the pass by which it can be set right: how far the dish pointed beside it on each axis in units of the spread.</summary>
    public (double Azimuth, double Elevation) Beside() => (_chance.NextNormal(), _chance.NextNormal());

    /// <summary>What it says; null while it sleeps. Called for every step.</summary>
    /// <param name="seconds">Since the rise.</param>
    /// <param name="azimuth">Where the dish points.</param>
    /// <param name="elevation">Where the dish points.</param>
    public SensorSample? At(double seconds, Angle azimuth, Angle elevation)
    {
        double keep = Math.Exp(-StepSeconds / _world.WanderSeconds);
        _wander = (keep * _wander) + (Math.Sqrt(1.0 - (keep * keep)) * _chance.NextNormal());
        _drift += _world.DriftDegreesPerRootSecond * Math.Sqrt(StepSeconds) * _chance.NextNormal();
        (double side, double high) = (_world.NoiseDegrees * _chance.NextNormal(), _world.NoiseDegrees * _chance.NextNormal());
        _late.Enqueue((azimuth.Degrees, elevation.Degrees));
        (double dishAzimuth, double dishElevation) = _late.Peek();
        if (_late.Count > (int)Math.Round(_world.LatencySeconds / StepSeconds))
        {
            (dishAzimuth, dishElevation) = _late.Dequeue();
        }

        double since = seconds - _disturbedAt;
        if (since >= 0.0 && since < _world.SleepSeconds)
        {
            return null;
        }

        return since >= 0.0 && since < _world.OffSeconds
            ? Hanging(since, side, high)
            : Said(dishAzimuth, dishElevation, side, high, since >= 0.0, since >= 0.0 && _world.OffSeconds > 0.0);
    }

    private SensorSample Said(double dishAzimuth, double dishElevation, double side, double high, bool disturbed, bool anew)
    {
        double level = Math.Max(0.05, Angle.FromDegrees(dishElevation).Cos());
        double turn = Angle.FromDegrees(dishAzimuth).Sin();
        double other = Angle.FromDegrees(dishAzimuth).Cos();
        double azimuth = dishAzimuth + _azimuthError + (_world.WanderDegrees * _wander) + _drift + side
            + (_world.IronDegrees * turn) + (_sineIron * turn) + (_cosineIron * other)
            + ((_right + (anew ? _anew.Right : 0.0)) / level)
            + (disturbed ? _world.JumpDegrees : 0.0) + (anew ? _anew.Azimuth : 0.0);
        double elevation = dishElevation + _elevationError + high + (anew ? _anew.Up : 0.0);
        return new SensorSample(
            _world.ElevationOnly ? null : Angle.FromDegrees(azimuth).WrappedToTurn(),
            Angle.FromDegrees(Math.Clamp(elevation, -90.0, 90.0)),
            Angle.Zero,
            _world.Arbitrary ? SensorNorth.Arbitrary : SensorNorth.True);
    }

    /// <summary>On its strap under the dish, it swings.</summary>
    private SensorSample Hanging(double since, double side, double high)
    {
        double swing = Math.Sin(2.0 * Math.PI * since / 1.7);
        return new SensorSample(
            _world.ElevationOnly ? null : Angle.FromDegrees(200.0 + (40.0 * swing) + side).WrappedToTurn(),
            Angle.FromDegrees(-55.0 + (15.0 * swing) + high),
            Angle.FromDegrees(70.0),
            _world.Arbitrary ? SensorNorth.Arbitrary : SensorNorth.True);
    }
}
