using Cockpit.Core.Units;

namespace Cockpit.Core.Sensing;

/// <summary>What a pointing sensor says of one moment; what it did not say is null.</summary>
/// <param name="Azimuth">Of the axis along the dish, from the sensor's own north, in [0°, 360°).</param>
/// <param name="Elevation">Of that axis, -90° to 90°.</param>
/// <param name="Roll">Clockwise as seen from behind.</param>
/// <param name="North">What its azimuth is counted from.</param>
public readonly record struct SensorSample(Angle? Azimuth, Angle? Elevation, Angle? Roll, SensorNorth North)
{
    /// <summary>Whether it says nothing about where the dish points.</summary>
    public bool IsEmpty => Azimuth is null && Elevation is null;

    /// <summary>This sample with what an earlier one holds and it does not.</summary>
    /// <param name="earlier">Of the same sensor.</param>
    public SensorSample Over(SensorSample earlier) => new(Azimuth ?? earlier.Azimuth, Elevation ?? earlier.Elevation, Roll ?? earlier.Roll, Azimuth is null ? earlier.North : North);
}

/// <summary>What the azimuth of a sensor is counted from.</summary>
public enum SensorNorth
{
    /// <summary>Nobody said: taken as magnetic, and doubted.</summary>
    Unknown = 0,

    /// <summary>True north.</summary>
    True = 1,

    /// <summary>Magnetic north.</summary>
    Magnetic = 2,

    /// <summary>Anything: only how it changes means something, as of a gyro.</summary>
    Arbitrary = 3,
}
