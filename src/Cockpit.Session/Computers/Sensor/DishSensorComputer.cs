using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sensor;

/// <summary>What is remembered of a pointing sensor.</summary>
/// <param name="Last">Its last sample, with what earlier ones told and it did not.</param>
/// <param name="AzimuthAt">Session time of its last azimuth; null before the first.</param>
/// <param name="ElevationAt">Session time of its last elevation; null before the first.</param>
/// <param name="At">Session time of its last sample; null before the first.</param>
/// <param name="Gap">Usual real time between two samples, seconds; null before the second.</param>
public sealed record DishSensorMemory(SensorSample Last, TimeSpan? AzimuthAt, TimeSpan? ElevationAt, TimeSpan? At, double? Gap)
{
    /// <summary>No sensor was heard.</summary>
    public static DishSensorMemory Empty { get; } = new(default, null, null, null, null);
}

/// <summary>The pointing sensor of the session: its samples put together, their age and rate. Pure.</summary>
public static class DishSensorComputer
{
    private const double Smoothing = 0.1;

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static DishSensorMemory Next(DishSensorMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        return scene.Envelope.Event switch
        {
            SessionOpened => DishSensorMemory.Empty,
            PointingMeasured { Sample: var sample } => new DishSensorMemory(
                sample.Over(memory.Last),
                sample.Azimuth is null ? memory.AzimuthAt : scene.Elapsed,
                sample.Elevation is null ? memory.ElevationAt : scene.Elapsed,
                scene.Elapsed,
                scene.Age(memory.At)?.TotalSeconds is { } gap ? memory.Gap is { } before ? before + (Smoothing * (gap - before)) : gap : null),
            _ => memory,
        };
    }

    /// <summary>What screen and estimate see; null before the first sample.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static SensorNow? Derive(DishSensorMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        if (scene.Age(memory.At) is not { } age)
        {
            return null;
        }

        // A sensor may tell heading and pitch in sentences of their own: each has its age.
        Angle? azimuth = IsFresh(memory.AzimuthAt, scene) ? True(memory.Last, scene.Settings) : null;
        Angle? elevation = IsFresh(memory.ElevationAt, scene) ? memory.Last.Elevation : null;
        return new SensorNow(azimuth, elevation, memory.Last.Roll, memory.Last.North, age, memory.Gap is > 0.0 and var gap ? 1.0 / gap : 0.0);
    }

    private static bool IsFresh(TimeSpan? at, Scene scene) => scene.Age(at) is { } age && age <= SensorNow.Fresh;

    private static Angle? True(SensorSample sample, SessionSettings settings) => sample switch
    {
        { Azimuth: { } read, North: SensorNorth.True or SensorNorth.Arbitrary } => read,
        { Azimuth: { } read } => (read + (settings.MagneticDeclination ?? Angle.Zero)).WrappedToTurn(),
        _ => null,
    };
}
