using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Checks;

/// <summary>What can be wrong with a sensor on the dish, one thing at a time, each against the usual sensor.</summary>
/// <remarks>Amplitudes of iron by 57 degrees times iron over the horizontal field: 3 in the tripod and 2.5 on the dish of 20 microtesla (geometry; the fields are a guess, no source).</remarks>
public static class SensorCases
{
    private static readonly SensorWorld Clean = new() { AzimuthDegrees = 0.0, ElevationDegrees = 0.0, WanderDegrees = 0.0, IronDegrees = 0.0 };

    private static readonly SensorWorld Askew = Clean with { AzimuthDegrees = 8.6, MostAzimuthDegrees = 25.0, RightDegrees = 3.0, ElevationDegrees = 3.2 };

    /// <summary>Every case: its words, and the sensor.</summary>
    public static ImmutableArray<(string Label, SensorWorld Sensor)> All { get; } =
    [
        ("sun before", new SensorWorld { Sighted = true }),
        ("tripod, askew", Askew),
        ("iron on dish", Clean with { OwnIronDegrees = 5.0 }),
        ("drift", Clean with { DriftDegreesPerRootSecond = 0.245 }),
        ("relative event", Askew with { Arbitrary = true, DriftDegreesPerRootSecond = 0.245 }),
        ("everything", Askew with { OwnIronDegrees = 5.0, DriftDegreesPerRootSecond = 0.245 }),
        ("jump 20", new SensorWorld { JumpDegrees = 20.0 }),
        ("asleep 20 s", new SensorWorld { SleepSeconds = 20.0 }),
        ("hangs 20 s", new SensorWorld { OffSeconds = 20.0 }),
        ("0.3 s late", new SensorWorld { LatencySeconds = 0.3 }),
    ];
}
