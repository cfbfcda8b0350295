using Cockpit.Core.Aim;
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
/// <param name="Bias">What is known of its errors.</param>
/// <param name="BiasAt">Session time of that knowledge; null before the first sample.</param>
/// <param name="LearntAt">Session time at which the belief about the dish was last taken for it; null before the first time.</param>
public sealed record DishSensorMemory(
    SensorSample Last, TimeSpan? AzimuthAt, TimeSpan? ElevationAt, TimeSpan? At, double? Gap, SensorBias Bias, TimeSpan? BiasAt, TimeSpan? LearntAt)
{
    /// <summary>No sensor was heard.</summary>
    public static DishSensorMemory Empty { get; } = new(default, null, null, null, null, SensorBias.Unknown, null, null);
}

/// <summary>The pointing sensor of the session: its samples put together, their age and rate. Pure.</summary>
public static class DishSensorComputer
{
    private const double Smoothing = 0.1;

    /// <summary>The belief about the dish errs the same way for a while: it counts once in this time.</summary>
    private const double ApartSeconds = 20.0;

    /// <summary>A belief that is wider, in beam widths, teaches nothing.</summary>
    private const double MostSpread = 0.25;

    /// <summary>No belief is nearer to the truth than this: the beam's own axis, the sag of the boom.</summary>
    private static readonly Angle LeastSpread = Angle.FromDegrees(1.0);

    /// <summary>A hand cannot turn the pan so far in this time.</summary>
    private static readonly TimeSpan AtOnce = TimeSpan.FromSeconds(0.3);

    /// <summary>Above it a small turn of the dish is a large one of the azimuth.</summary>
    private static readonly Angle NearZenith = Angle.FromDegrees(80.0);

    private static readonly Angle SameHeight = Angle.FromDegrees(3.0);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    /// <param name="aim">What is believed of the dish.</param>
    public static DishSensorMemory Next(DishSensorMemory memory, Scene scene, AimNow aim)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        ArgumentNullException.ThrowIfNull(aim);
        return scene.Envelope.Event switch
        {
            SessionOpened => DishSensorMemory.Empty,
            PointingMeasured { Sample: var sample } => Heard(memory, sample, scene),
            Ticked when scene.Age(memory.LearntAt)?.TotalSeconds is null or >= ApartSeconds => Learnt(memory, scene, aim),
            OperatorPressed { Key: OperatorKey.Peaked } => Learnt(memory, scene, aim),
            DirectionKnown known => Pointed(memory, scene, known),
            _ => memory,
        };
    }

    private static DishSensorMemory Heard(DishSensorMemory memory, SensorSample sample, Scene scene)
    {
        SensorBias bias = memory.BiasAt is null && sample.North == SensorNorth.Arbitrary ? SensorBias.Arbitrary : memory.Bias;
        bool jumped = sample is { Azimuth: { } now, Elevation: { } high } && memory.Last is { Azimuth: { } last, Elevation: { } before }
            && scene.Age(memory.At) <= AtOnce && (now - last).WrappedToHalfTurn().Abs() > SensorBias.Jump && (high - before).Abs() < SameHeight && high < NearZenith;
        return memory with
        {
            Last = sample.Over(memory.Last),
            AzimuthAt = sample.Azimuth is null ? memory.AzimuthAt : scene.Elapsed,
            ElevationAt = sample.Elevation is null ? memory.ElevationAt : scene.Elapsed,
            At = scene.Elapsed,
            Gap = scene.Age(memory.At)?.TotalSeconds is { } gap ? memory.Gap is { } usual ? usual + (Smoothing * (gap - usual)) : gap : null,
            Bias = jumped ? bias.Jumped() : bias,
            BiasAt = memory.BiasAt ?? scene.Elapsed,

            // After a jump the next belief counts at once.
            LearntAt = jumped ? null : memory.LearntAt,
        };
    }

    /// <summary>Takes the belief about the dish for its true direction, where it is good enough and the dish stands.</summary>
    private static DishSensorMemory Learnt(DishSensorMemory memory, Scene scene, AimNow aim)
    {
        if (aim is not { Dish: { Origin: not PointingOrigin.Plan } dish, Word: not AimWord.Move } || dish.Spread > MostSpread * aim.BeamWidth || memory.BiasAt is not { } since)
        {
            return memory;
        }

        Angle? azimuth = IsFresh(memory.AzimuthAt, scene) ? True(memory.Last, scene.Settings) : null;
        Angle? elevation = IsFresh(memory.ElevationAt, scene) ? memory.Last.Elevation : null;
        return azimuth is null && elevation is null ? memory : memory with
        {
            Bias = memory.Bias.After(scene.Elapsed - since).Seen(azimuth, elevation, dish.Azimuth, dish.Elevation, dish.Spread > LeastSpread ? dish.Spread : LeastSpread),
            BiasAt = scene.Elapsed,
            LearntAt = scene.Elapsed,
        };
    }

    /// <summary>Takes the direction of what the dish was pointed at.</summary>
    private static DishSensorMemory Pointed(DishSensorMemory memory, Scene scene, DirectionKnown known)
    {
        Angle? azimuth = IsFresh(memory.AzimuthAt, scene) ? True(memory.Last, scene.Settings) : null;
        Angle? elevation = known.Elevation is not null && IsFresh(memory.ElevationAt, scene) ? memory.Last.Elevation : null;
        return memory.BiasAt is not { } since || (azimuth is null && elevation is null) ? memory : memory with
        {
            Bias = memory.Bias.After(scene.Elapsed - since).Seen(azimuth, elevation, known.Azimuth, known.Elevation ?? memory.Last.Elevation ?? Angle.Zero, known.Spread),
            BiasAt = scene.Elapsed,
            LearntAt = scene.Elapsed,
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
        SensorBias bias = memory.Bias.After(scene.Elapsed - (memory.BiasAt ?? scene.Elapsed));
        return new SensorNow(
            azimuth,
            elevation,
            memory.Last.Roll,
            memory.Last.North,
            age,
            memory.Gap is > 0.0 and var gap ? 1.0 / gap : 0.0,
            memory.LearntAt is null || azimuth is null ? null : bias.AzimuthAt(memory.Last.Elevation ?? Angle.Zero),
            azimuth is null ? bias.ElevationDoubt : bias.DoubtAt(memory.Last.Elevation ?? Angle.Zero));
    }

    private static bool IsFresh(TimeSpan? at, Scene scene) => scene.Age(at) is { } age && age <= SensorNow.Fresh;

    private static Angle? True(SensorSample sample, SessionSettings settings) => sample switch
    {
        { Azimuth: { } read, North: SensorNorth.True or SensorNorth.Arbitrary } => read,
        { Azimuth: { } read } => (read + (settings.MagneticDeclination ?? Angle.Zero)).WrappedToTurn(),
        _ => null,
    };
}
