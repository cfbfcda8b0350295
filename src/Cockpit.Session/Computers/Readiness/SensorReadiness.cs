using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>The sensor on the dish before a pass, and what it can be pointed at to know how far it is off. Pure.</summary>
internal static class SensorReadiness
{
    /// <summary>How the sensor is; null where the session has none.</summary>
    /// <param name="draft">What the other steps found.</param>
    /// <param name="directions">What can be pointed at; null where nothing can.</param>
    public static ReadinessItem? Of(Snapshot draft, DirectionsNow? directions)
    {
        const ReadinessTopic topic = ReadinessTopic.Sensor;
        if (draft.Sensor is not { } sensor)
        {
            return draft.Feeds.Any(feed => feed.Role == FeedRole.Pointing) ? new(topic, ReadinessState.Open, "nothing came from it yet") : null;
        }

        if (!sensor.IsFresh)
        {
            return new(topic, ReadinessState.Red, string.Create(CultureInfo.InvariantCulture, $"silent for {sensor.Age.TotalSeconds:0} s"), "wake it; without it the level guides");
        }

        string? todo = directions is { Chosen: var chosen } ? string.Create(CultureInfo.InvariantCulture, $"point at {chosen.What}{At(chosen)}, then D{(directions.All.Length > 1 ? "; G: another" : "")}") : null;
        string doubt = string.Create(CultureInfo.InvariantCulture, $"{Math.Max(0.1, sensor.Doubt.Degrees):0.#} degrees");
        return sensor.State == SensorState.Trusted
            ? new(topic, ReadinessState.Green, $"tells where the dish points to {doubt}")
            : new(topic, ReadinessState.Open, sensor.Bias is null && !sensor.IsInclinometer ? "nobody knows yet how far it is off" : $"known to {doubt} only", todo);
    }

    /// <summary>What the dish can be pointed at; null without a sensor that is awake, and where nothing can be seen.</summary>
    /// <param name="memory">Which was asked for.</param>
    /// <param name="scene">The moment.</param>
    /// <param name="draft">What the other steps found.</param>
    public static DirectionsNow? Directions(ReadinessMemory memory, Scene scene, Snapshot draft)
    {
        // In a session without its place nobody knows where the sun stands.
        if (draft.Sensor is not { IsFresh: true } || scene.Settings.Sky is not null)
        {
            return null;
        }

        ImmutableArray<DirectionOffer> offers = DirectionFinder.At(scene.Settings.Station, scene.Settings.Landmarks, scene.Utc);
        return offers.IsEmpty ? null : new DirectionsNow(offers, memory.Direction % offers.Length);
    }

    private static string At(DirectionOffer offer) => offer.Elevation is { } high
        ? string.Create(CultureInfo.InvariantCulture, $" (az {Whole(offer.Azimuth)} el {high.Degrees:0})")
        : string.Create(CultureInfo.InvariantCulture, $" (az {Whole(offer.Azimuth)})");

    private static string Whole(Angle azimuth) => (Math.Round(azimuth.Degrees) % 360.0).ToString("000", CultureInfo.InvariantCulture);
}
