using System.Globalization;
using Cockpit.Core.Estimate;
using Cockpit.Core.Sensing;

namespace Cockpit.Session.Computers.Sensor;

/// <summary>What is said of the sensor on the dish when it stands otherwise with it.</summary>
internal static class SensorWords
{
    public const string Jumped = "the compass of the sensor jumped, the dish did not: taken out";

    public static string? Of(SensorState state, DishEstimate dish) => state switch
    {
        SensorState.Trusted when dish.BySensor is { } place =>
            string.Create(CultureInfo.InvariantCulture, $"the sensor knows where the dish points, to {Math.Max(1.0, place.Spread):0} degrees"),
        SensorState.Trusted => "the sensor knows how high the dish points",
        SensorState.Asleep => "the sensor is asleep: the level leads on",
        SensorState.Off => "the sensor is off the dish, or slipped: the level leads on",
        _ => null,
    };
}
