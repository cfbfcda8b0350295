using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>How a dish is steered in a closed-loop run.</summary>
public enum Steering
{
    /// <summary>Always exactly at the satellite: what the path alone loses.</summary>
    Perfect = 0,

    /// <summary>By the hold plan without any error: what nudging alone loses.</summary>
    HoldPlan = 1,

    /// <summary>By a hand that sees only the level and a paper table.</summary>
    Unguided = 2,

    /// <summary>By a hand that follows this program.</summary>
    Guided = 3,

    /// <summary>The same with a program that knows where the dish points: what not knowing costs.</summary>
    KnownDish = 4,

    /// <summary>The same with a hand without errors: what the hand costs.</summary>
    ExactHand = 5,

    /// <summary>Guided by a sensor that was set right before the pass by a known direction; no level is fed.</summary>
    Sensor = 6,

    /// <summary>Guided by level and sensor; how far the sensor is off is not known before.</summary>
    SensorAndSignal = 7,

    /// <summary>Guided by the level and a sensor that tells the elevation alone.</summary>
    Inclinometer = 8,

    /// <summary>By a sensor that is believed as it is, without its errors: why that is never done.</summary>
    RawSensor = 9,
}

/// <summary>One simulated pass.</summary>
/// <param name="Steering">How the dish is steered.</param>
/// <param name="Skill">Whose hand.</param>
/// <param name="World">Which world.</param>
/// <param name="HighestDegrees">Highest elevation, degrees, above 5, to 90.</param>
/// <param name="Seed">Seed; the same seed is the same sky, wind and noise for every steering.</param>
/// <param name="DishMetres">Diameter of the dish.</param>
/// <param name="Sensor">What is wrong with the sensor on it; null: as such sensors are.</param>
/// <param name="Learnt">What the guidance knows of this hand from earlier passes; null: as hands of that skill are.</param>
public sealed record Trial(
    Steering Steering, HandSkill Skill, WorldModel World, double HighestDegrees, ulong Seed, double DishMetres = 0.8, HandSettings? Learnt = null, SensorWorld? Sensor = null);

/// <summary>What one simulated pass came to.</summary>
/// <param name="LostShare">Picture lines lost, 0..1.</param>
/// <param name="FirstShare">Of all lines, those lost in the first minute.</param>
/// <param name="LowShare">Those lost later while the satellite is below 10 degrees.</param>
/// <param name="RmsDegrees">Root mean square of the angle between dish and satellite.</param>
/// <param name="Moves">Moves of the hand.</param>
/// <param name="Marks">Times "peaked" was pressed.</param>
/// <param name="Believed">How often the belief was compared with the truth: once a second.</param>
/// <param name="InHalf">How often the dish was inside the region of 50 %.</param>
/// <param name="InMost">How often it was inside the region of 95 %.</param>
/// <param name="Errors">Angle between dish and belief at each of <see cref="ErrorsAt"/>, degrees; empty without a belief, shorter where the pass is.</param>
public sealed record PassScore(
    double LostShare, double FirstShare, double LowShare, double RmsDegrees, int Moves, int Marks, int Believed, int InHalf, int InMost, ImmutableArray<double> Errors)
{
    /// <summary>Seconds since AOS at which the error of the belief is noted.</summary>
    public static ImmutableArray<int> ErrorsAt { get; } = [0, 15, 30, 60, 120, 240, 480];

    /// <summary>Of all lines, those lost after the first minute above 10 degrees.</summary>
    public double RestShare => LostShare - FirstShare - LowShare;
}
