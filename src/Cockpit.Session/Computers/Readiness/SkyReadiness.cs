using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>Elements, sun and skyline before a pass. Pure.</summary>
internal static class SkyReadiness
{
    /// <summary>In a low orbit, km/s.</summary>
    private const double OrbitSpeedKmPerSec = 7.5;

    /// <summary>By then the usual error is a second, half a degree near the zenith.</summary>
    private const double Young = 3.0;

    /// <summary>By then it may be several seconds.</summary>
    private const double Old = 8.0;

    public static ReadinessItem Elements(SkyNow sky, SessionSettings settings)
    {
        if (settings.Elements is null)
        {
            return new(ReadinessTopic.Elements, ReadinessState.Green, "the satellite is made up");
        }

        double days = Math.Abs(sky.ElementAge.TotalDays);
        string found = string.Create(CultureInfo.InvariantCulture, $"{days:0.0} days {(sky.ElementAge < TimeSpan.Zero ? "ahead" : "old")}, usually ±{sky.AlongTrackErrorKm / OrbitSpeedKmPerSec:0.0} s");
        return days <= Young ? new(ReadinessTopic.Elements, ReadinessState.Green, found)
            : new(ReadinessTopic.Elements, days <= Old ? ReadinessState.Open : ReadinessState.Red, found, "cockpit elements update");
    }

    public static ReadinessItem Sun(SkyNow sky, Beam beam)
    {
        const ReadinessTopic topic = ReadinessTopic.Sun;
        return sky.Sun switch
        {
            null => new(topic, ReadinessState.Open, "where it is is not known here"),
            { Skipped: { } skipped } => new(topic, ReadinessState.Open, skipped.Words(), "follow the calls"),
            { Nearest: { } nearest } when nearest < beam.HalfPowerWidth => new(
                topic,
                ReadinessState.Red,
                string.Create(CultureInfo.InvariantCulture, $"{nearest.Degrees:0} degrees from the way, within the beam, at {sky.Sun.FromUtc:HH:mm}"),
                "never look along the dish; cover a shiny one"),
            { Nearest: { } nearest } => new(topic, ReadinessState.Green, string.Create(CultureInfo.InvariantCulture, $"{nearest.Degrees:0} degrees from the way at its nearest")),
            { Now: null } => new(topic, ReadinessState.Green, "down"),
            _ => new(topic, ReadinessState.Green, "never near the way"),
        };
    }

    public static ReadinessItem Skyline(SkyNow sky, SessionSettings settings) => settings.Skyline.IsDefaultOrEmpty
        ? new(ReadinessTopic.Skyline, ReadinessState.Open, "none told: the rise is that over a flat horizon", "cockpit skyline teach NAME")
        : new(ReadinessTopic.Skyline, ReadinessState.Green, string.Create(
            CultureInfo.InvariantCulture,
            $"first sight {Elevation(sky.Pass.Aos.Look.Elevation)} high in azimuth {sky.Pass.Aos.Look.Azimuth.Degrees:0}, last {Elevation(sky.Pass.Los.Look.Elevation)}"));

    private static string Elevation(Angle elevation) => string.Create(CultureInfo.InvariantCulture, $"{elevation.Degrees:0} degrees");
}
