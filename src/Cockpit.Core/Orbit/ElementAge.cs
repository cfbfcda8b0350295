using System.Globalization;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Units;

namespace Cockpit.Core.Orbit;

/// <summary>How old elements are at an instant and what that usually does to the prediction.</summary>
/// <param name="Age">Time since the epoch; negative before it.</param>
/// <param name="SpeedKmPerSecond">Mean speed along the orbit, km/s.</param>
/// <remarks>
/// The error of a low orbit lies almost all along the track and grows by 1 to 3 km a day away from the epoch (common
/// practice, no source); it is worse in a storm of the sun and at low heights. A satellite that is early or late by it is
/// seen aside of its prediction most when it culminates.
/// </remarks>
public readonly record struct ElementAge(TimeSpan Age, double SpeedKmPerSecond)
{
    /// <summary>Usual growth, low end, km a day.</summary>
    public const double LowKmPerDay = 1.0;

    /// <summary>Usual growth, high end, km a day.</summary>
    public const double HighKmPerDay = 3.0;

    /// <summary>Along-track error, low end of the usual, km.</summary>
    public double LowKm => LowKmPerDay * Math.Abs(Age.TotalDays);

    /// <summary>Along-track error, high end of the usual, km.</summary>
    public double HighKm => HighKmPerDay * Math.Abs(Age.TotalDays);

    /// <summary>How early or late the satellite may be, low end, s.</summary>
    public double LowSeconds => LowKm / SpeedKmPerSecond;

    /// <summary>How early or late the satellite may be, high end, s.</summary>
    public double HighSeconds => HighKm / SpeedKmPerSecond;

    /// <summary>The age of elements at an instant.</summary>
    /// <param name="elements">The elements.</param>
    /// <param name="utc">The instant, UTC.</param>
    public static ElementAge At(ElementSet elements, DateTimeOffset utc)
    {
        ArgumentNullException.ThrowIfNull(elements);
        double radPerSecond = elements.MeanMotionRevPerDay * Math.Tau / 86400.0;
        return new ElementAge(utc - elements.EpochUtc, Math.Cbrt(Wgs72.MuKm3PerS2 * radPerSecond));
    }

    /// <summary>How far aside of its prediction the satellite may be seen, low and high end.</summary>
    /// <param name="rangeKm">Distance to the satellite, km; that at culmination gives the largest angle of a pass.</param>
    public (Angle Low, Angle High) AngleAt(double rangeKm) =>
        (Angle.FromRadians(Math.Atan2(LowKm, rangeKm)), Angle.FromRadians(Math.Atan2(HighKm, rangeKm)));

    /// <summary>The age in words that fit a line: "elements 3.2 d old", "elements 5 h old", "elements from 2.0 d later".</summary>
    public string Words()
    {
        double hours = Math.Abs(Age.TotalHours);
        string size = hours < 48.0
            ? string.Create(CultureInfo.InvariantCulture, $"{hours:0} h")
            : string.Create(CultureInfo.InvariantCulture, $"{hours / 24.0:0.0} d");
        return Age < TimeSpan.Zero ? $"elements from {size} later" : $"elements {size} old";
    }

    /// <summary>Age and usual error in one line.</summary>
    /// <param name="rangeKm">Distance to the satellite at culmination, km.</param>
    public string Sentence(double rangeKm)
    {
        (Angle low, Angle high) = AngleAt(rangeKm);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Words()}: usually {LowKm:0.0} to {HighKm:0.0} km along the track, {LowSeconds:0.0} to {HighSeconds:0.0} s, {low.Degrees:0.0} to {high.Degrees:0.0} degrees at culmination");
    }
}
