using Cockpit.Core.Estimate;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Estimate;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sensor;

/// <summary>What is remembered of a pointing sensor; how far it is off is known to the estimate alone.</summary>
/// <param name="Last">Its last sample, with what earlier ones told and it did not.</param>
/// <param name="AzimuthAt">Session time of its last azimuth; null before the first.</param>
/// <param name="ElevationAt">Session time of its last elevation; null before the first.</param>
/// <param name="At">Session time of its last sample; null before the first.</param>
/// <param name="Gap">Usual real time between two samples, seconds; null before the second.</param>
/// <param name="State">How it stood with it after the last event.</param>
/// <param name="Told">The state that was last told.</param>
/// <param name="JumpedAt">When the estimate last took out a jump, s; negative infinity when never.</param>
/// <param name="Note">What changed with the last event; null when nothing did.</param>
public sealed record DishSensorMemory(
    SensorSample Last, TimeSpan? AzimuthAt, TimeSpan? ElevationAt, TimeSpan? At, double? Gap, SensorState State, SensorState Told, double JumpedAt, string? Note)
{
    /// <summary>No sensor was heard.</summary>
    public static DishSensorMemory Empty { get; } = new(default, null, null, null, null, SensorState.None, SensorState.None, double.NegativeInfinity, null);
}

/// <summary>The pointing sensor of the session: its samples put together, their age and rate, and what the estimate makes of it. Pure.</summary>
public static class DishSensorComputer
{
    private const double Smoothing = 0.1;

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    /// <param name="dish">The belief about the dish after the event; null without a pass.</param>
    public static DishSensorMemory Next(DishSensorMemory memory, Scene scene, DishEstimate? dish)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        memory = scene.Envelope.Event switch
        {
            SessionOpened => DishSensorMemory.Empty,
            PointingMeasured { Sample: var sample } => Heard(memory, sample, scene),
            _ => memory,
        };
        return memory.At is null ? memory : Noted(memory with { State = dish?.Sensor ?? SensorState.Learning, Note = null }, dish);
    }

    private static DishSensorMemory Heard(DishSensorMemory memory, SensorSample sample, Scene scene) => memory with
    {
        Last = sample.Over(memory.Last),
        AzimuthAt = sample.Azimuth is null ? memory.AzimuthAt : scene.Elapsed,
        ElevationAt = sample.Elevation is null ? memory.ElevationAt : scene.Elapsed,
        At = scene.Elapsed,
        Gap = scene.Age(memory.At)?.TotalSeconds is { } gap ? memory.Gap is { } usual ? usual + (Smoothing * (gap - usual)) : gap : null,
    };

    private static DishSensorMemory Noted(DishSensorMemory memory, DishEstimate? dish)
    {
        if (dish is null)
        {
            return memory;
        }

        if (dish.SensorJumpedAt > memory.JumpedAt)
        {
            return memory with { JumpedAt = dish.SensorJumpedAt, Note = SensorWords.Jumped };
        }

        // That it is not known any more, or again not yet, is seen; it is no news.
        return memory.State is SensorState.Learning or SensorState.None || memory.State == memory.Told
            ? memory
            : memory with { Told = memory.State, Note = SensorWords.Of(memory.State, dish) };
    }

    /// <summary>What screen and cues see; null before the first sample.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    /// <param name="dish">The belief about the dish after the event; null without a pass.</param>
    public static SensorNow? Derive(DishSensorMemory memory, Scene scene, DishEstimate? dish)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        if (scene.Age(memory.At) is not { } age)
        {
            return null;
        }

        // A sensor may tell heading and pitch in sentences of their own: each has its age.
        Angle? azimuth = IsFresh(memory.AzimuthAt, scene) ? DishModel.TrueAzimuth(memory.Last, scene.Settings) : null;
        Angle? elevation = IsFresh(memory.ElevationAt, scene) ? memory.Last.Elevation : null;
        (double across, double up) = dish?.SensorDoubt ?? (SensorBias.Unknown.DoubtAt(elevation ?? Angle.Zero).Degrees, SensorBias.Unknown.ElevationDoubt.Degrees);
        return new SensorNow(
            azimuth,
            elevation,
            memory.Last.Roll,
            memory.Last.North,
            age,
            memory.Gap is > 0.0 and var gap ? 1.0 / gap : 0.0,
            azimuth is not null && dish?.SensorBias.Azimuth is { } off ? Angle.FromDegrees(off) : null,
            Angle.FromDegrees(Math.Min(180.0, azimuth is null ? up : across)),
            memory.State,
            memory.Note);
    }

    private static bool IsFresh(TimeSpan? at, Scene scene) => scene.Age(at) is { } age && age <= SensorNow.Fresh;
}
