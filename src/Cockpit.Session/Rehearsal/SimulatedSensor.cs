using Cockpit.Core.Chance;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>What is wrong with a simulated sensor on the dish.</summary>
/// <param name="Noise">Of each axis, one standard deviation.</param>
/// <param name="Bias">Constant error of its azimuth, as of steel in the tripod.</param>
/// <param name="Wander">How far its azimuth wanders in a second, one standard deviation; grows with the root of the time, as of a gyro.</param>
/// <param name="Iron">Amplitude of an error that turns with the dish, as of steel on it: iron times the sine of the azimuth.</param>
/// <param name="Latency">Age of what it tells.</param>
public sealed record SensorFlaws(Angle Noise, Angle Bias, Angle Wander, Angle Iron, TimeSpan Latency);

/// <summary>A sensor on a dish, with its flaws; asked in the order of time. What a compass has wrong by declination is part of its bias.</summary>
/// <param name="dish">Where the dish points at an instant, true.</param>
/// <param name="flaws">What is wrong with it.</param>
/// <param name="seed">Of noise and wander.</param>
public sealed class SimulatedSensor(Func<DateTimeOffset, (Angle Azimuth, Angle Elevation)> dish, SensorFlaws flaws, ulong seed)
{
    private readonly Xoshiro256 _chance = new(seed);
    private DateTimeOffset? _last;
    private Angle _wandered;

    /// <summary>What it says at an instant, UTC.</summary>
    public SensorSample At(DateTimeOffset utc)
    {
        double passed = _last is { } last ? Math.Max(0.0, (utc - last).TotalSeconds) : 0.0;
        _last = utc;
        _wandered += _chance.NextNormal() * Math.Sqrt(passed) * flaws.Wander;
        (Angle azimuth, Angle elevation) = dish(utc - flaws.Latency);

        // Noise across the axis is more of azimuth the higher it points.
        double spread = 1.0 / Math.Max(0.05, elevation.Cos());
        Angle read = azimuth + flaws.Bias + _wandered + (azimuth.Sin() * flaws.Iron) + (_chance.NextNormal() * spread * flaws.Noise);
        Angle high = elevation + (_chance.NextNormal() * flaws.Noise);
        return new SensorSample(read.WrappedToTurn(), Angle.FromDegrees(Math.Clamp(high.Degrees, -90.0, 90.0)), Angle.Zero, SensorNorth.True);
    }
}
