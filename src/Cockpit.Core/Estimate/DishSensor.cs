using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Core.Estimate;

/// <summary>One sample of a sensor on the dish; degrees.</summary>
/// <param name="Azimuth">True as far as its north is known; null where it tells none.</param>
/// <param name="Elevation">Null where it tells none.</param>
/// <param name="Roll">About the axis; null where it tells none.</param>
/// <param name="IsArbitrary">Its azimuth is counted from anywhere: only how it changes means something.</param>
public readonly record struct SensorReading(double? Azimuth, double? Elevation, double? Roll, bool IsArbitrary);

/// <summary>The sensor of an estimate: its two axes, whether it is awake and on the dish, and what was known of its errors before the pass. Degrees, seconds.</summary>
/// <remarks>
/// A jump of the azimuth between two samples while the height stays is none of the dish: the zero of the sensor moved, and is moved back.
/// A device that rolls about its axis, or looks far under the horizon, does not sit on the dish any more. Allocates only when made.
/// </remarks>
internal sealed class DishSensor(double speed)
{
    private const double FreshSeconds = 0.5;
    private const double UsualGaps = 1.6;
    private const double SlowestGap = 1.5;
    private const double JumpDegrees = 15.0;
    private const double JumpWithin = 0.3;
    private const double SameHeight = 3.0;
    private const double HighDegrees = 75.0;
    private const double LowestDegrees = -20.0;
    private const double HighestDegrees = 100.0;
    private const double RollsDegrees = 35.0;
    private const double RollShare = 0.02;
    private const double BackAfter = 2.0;
    private const double DisturbedSeconds = 30.0;

    private readonly SensorAxis _azimuth = new(turns: true);
    private readonly SensorAxis _elevation = new(turns: false);
    private double _roll = double.NaN;
    private double _heardAt = double.NegativeInfinity;
    private double _gap = 0.1 * speed;
    private double _jumpedAt = double.NegativeInfinity;
    private double _oddAt = double.NegativeInfinity;
    private double _biasAt = double.NaN;

    /// <summary>What is known of its errors from known directions; only until the pass begins.</summary>
    public SensorBias Bias { get; private set; } = SensorBias.Unknown;

    /// <summary>Whether a direction was known.</summary>
    public bool IsSighted { get; private set; }

    /// <summary>Whether its azimuth is counted from anywhere.</summary>
    public bool IsArbitrary { get; private set; }

    public SensorAxis Azimuth => _azimuth;

    public SensorAxis Elevation => _elevation;

    public bool WasHeard => !double.IsNegativeInfinity(_heardAt);

    /// <summary>When a jump was last taken out.</summary>
    public double JumpedAt => _jumpedAt;

    /// <summary>How long a sample counts, s of the session.</summary>
    private double Counts => Math.Max(FreshSeconds * speed, Math.Min(SlowestGap * speed, UsualGaps * _gap));

    public bool IsAwake(double now) => now - _heardAt <= Counts;

    public bool HasAzimuth(double now) => now - _azimuth.HeardAt <= Counts;

    public bool HasElevation(double now) => now - _elevation.HeardAt <= Counts;

    public bool IsOdd(double now) => now - _oddAt < BackAfter * speed;

    public bool IsDisturbed(double now) => now - _jumpedAt < DisturbedSeconds * speed;

    /// <summary>Takes in a sample.</summary>
    public void Take(double now, in SensorReading reading)
    {
        double passed = now - _heardAt;
        if (passed > 0.0 && passed < SlowestGap * speed)
        {
            _gap += 0.1 * (passed - _gap);
        }

        if (!WasHeard)
        {
            IsArbitrary = reading.IsArbitrary;
            Bias = IsArbitrary ? SensorBias.Arbitrary : Bias;
        }

        Odd(now, reading);
        Jump(now, reading, passed);
        if (reading.Azimuth is { } azimuth)
        {
            _azimuth.Take(now, azimuth);
        }

        if (reading.Elevation is { } elevation)
        {
            _elevation.Take(now, elevation);
        }

        _heardAt = now;
    }

    /// <summary>The dish points in a known direction.</summary>
    public void Seen(double now, double azimuth, double? elevation, double spread)
    {
        if (!IsAwake(now))
        {
            return;
        }

        double high = elevation ?? (HasElevation(now) ? _elevation.Now : 0.0);
        Bias = After(now).Seen(
            HasAzimuth(now) ? Angle.FromDegrees(_azimuth.Now) : null,
            HasElevation(now) && elevation is not null ? Angle.FromDegrees(_elevation.Now) : null,
            Angle.FromDegrees(azimuth),
            Angle.FromDegrees(high),
            Angle.FromDegrees(spread));
        (_biasAt, IsSighted) = (now, true);
    }

    /// <summary>After a sleep: what came before says nothing about where it points now.</summary>
    public void Wake()
    {
        _azimuth.Wake();
        _elevation.Wake();
    }

    /// <summary>What is known of its errors now.</summary>
    public SensorBias After(double now) => double.IsNaN(_biasAt) ? Bias : Bias.After(TimeSpan.FromSeconds(Math.Max(0.0, now - _biasAt)));

    private void Odd(double now, in SensorReading reading)
    {
        bool odd = reading.Elevation is < LowestDegrees or > HighestDegrees;
        if (reading.Roll is { } roll && reading.Elevation is not > HighDegrees)
        {
            if (double.IsNaN(_roll))
            {
                _roll = roll;
            }

            double turned = roll - _roll;
            turned -= 360.0 * Math.Round(turned / 360.0);
            odd |= Math.Abs(turned) > RollsDegrees;

            // Strapped on anew it has another roll: that is believed after a while.
            _roll += RollShare * turned;
        }

        _oddAt = odd ? now : _oddAt;
    }

    private void Jump(double now, in SensorReading reading, double passed)
    {
        if (reading.Azimuth is not { } told || passed > JumpWithin * speed || now - _azimuth.HeardAt > JumpWithin * speed)
        {
            return;
        }

        double jump = _azimuth.StepTo(told);
        bool level = reading.Elevation is not { } high || (Math.Abs(high - _elevation.Last) < SameHeight && high < HighDegrees);
        if (Math.Abs(jump) > JumpDegrees && level)
        {
            _azimuth.Shift(jump);
            _jumpedAt = now;
        }
    }
}
