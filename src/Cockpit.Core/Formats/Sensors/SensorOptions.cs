using Cockpit.Core.Sensing;

namespace Cockpit.Core.Formats.Sensors;

/// <summary>What a person says of a pointing sensor behind its address.</summary>
/// <param name="Axis">Which axis of the device lies along the dish, where it sends an attitude.</param>
/// <param name="North">What its azimuth is counted from; unknown: as its lines say.</param>
public sealed record SensorOptions(DeviceAxis Axis, SensorNorth North)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "axis=top|camera|screen|right, north=true|magnetic|arbitrary";

    /// <summary>A device that lies flat on the boom, and says itself what its north is.</summary>
    public static SensorOptions Usual { get; } = new(DeviceAxis.Top, SensorNorth.Unknown);

    /// <summary>Takes one option.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="value">Its value.</param>
    /// <returns>The options with it; null where it is none of these.</returns>
    public SensorOptions? With(string name, string value) => (name, value) switch
    {
        ("axis", "top") => this with { Axis = DeviceAxis.Top },
        ("axis", "camera") => this with { Axis = DeviceAxis.Camera },
        ("axis", "screen") => this with { Axis = DeviceAxis.Screen },
        ("axis", "right") => this with { Axis = DeviceAxis.Right },
        ("north", "true") => this with { North = SensorNorth.True },
        ("north", "magnetic") => this with { North = SensorNorth.Magnetic },
        ("north", "arbitrary") => this with { North = SensorNorth.Arbitrary },
        _ => null,
    };
}
