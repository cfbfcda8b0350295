using System.Globalization;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Orbit;

/// <summary>Mean elements of one satellite at one epoch, in the sense of SGP4 (TEME, UTC), as TLE and OMM carry them.</summary>
/// <remarks>Fields: CCSDS 502.0-B-3, section 4 (OMM); F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), section 2.</remarks>
public sealed record ElementSet
{
    /// <summary>The satellite's name; its catalogue number in five digits where the input gives none.</summary>
    public required string Name { get; init; }

    /// <summary>Catalogue number, 0 to 999999999.</summary>
    public required int CatalogNumber { get; init; }

    /// <summary>U unclassified, C classified, S secret.</summary>
    public char Classification { get; init; } = 'U';

    /// <summary>International designator, "2026-010A" where the input has that sense, else as written; may be empty.</summary>
    public string InternationalDesignator { get; init; } = "";

    /// <summary>The epoch, UTC; the day is a midnight, the fraction is as exact as the input.</summary>
    public required JulianDate Epoch { get; init; }

    /// <summary>The epoch, UTC, to the tick of 100 ns.</summary>
    public DateTimeOffset EpochUtc => Epoch.ToUtc();

    /// <summary>Mean motion as published (Kozai's sense), revolutions a day.</summary>
    public required double MeanMotionRevPerDay { get; init; }

    /// <summary>First derivative of the mean motion divided by two, as the formats carry it, rev/day²; SGP4 does not use it.</summary>
    public double MeanMotionDotRevPerDay2 { get; init; }

    /// <summary>Second derivative of the mean motion divided by six, as the formats carry it, rev/day³; SGP4 does not use it.</summary>
    public double MeanMotionDdotRevPerDay3 { get; init; }

    /// <summary>Drag term B*, 1/earth radii; may be negative.</summary>
    public double BStar { get; init; }

    /// <summary>Inclination, [0°, 180°].</summary>
    public required Angle Inclination { get; init; }

    /// <summary>Right ascension of the ascending node, [0°, 360°].</summary>
    public required Angle RightAscension { get; init; }

    /// <summary>Eccentricity, [0, 1).</summary>
    public required double Eccentricity { get; init; }

    /// <summary>Argument of perigee, [0°, 360°].</summary>
    public required Angle ArgumentOfPerigee { get; init; }

    /// <summary>Mean anomaly, [0°, 360°].</summary>
    public required Angle MeanAnomaly { get; init; }

    /// <summary>Ephemeris type as the input says; 0 is the ordinary SGP4.</summary>
    public int EphemerisType { get; init; }

    /// <summary>Running number of the element set, 0 to 9999.</summary>
    public int ElementSetNumber { get; init; }

    /// <summary>Revolution number at the epoch.</summary>
    public int RevolutionNumber { get; init; }

    /// <summary>The period that belongs to the published mean motion.</summary>
    public TimeSpan Period => TimeSpan.FromMinutes(1440.0 / MeanMotionRevPerDay);

    /// <summary>Minutes from the epoch to an instant; negative before the epoch.</summary>
    public double MinutesSinceEpoch(DateTimeOffset utc) => JulianDate.FromUtc(utc).MinutesSince(Epoch);

    /// <summary>The ephemeris type of elements that were fitted with a successor of SGP4 (from memory); they do not fit this theory.</summary>
    private const int ExtendedTheory = 4;

    /// <summary>Why these numbers cannot be elements of SGP4; null when they can.</summary>
    public ElementError? Validate() =>
        Outside(ElementField.MeanMotion, "mean motion", MeanMotionRevPerDay, 1e-8, 100.0, "rev/day")
        ?? Outside(ElementField.Eccentricity, "eccentricity", Eccentricity, 0.0, 1.0, "", exclusiveHigh: true)
        ?? Outside(ElementField.Inclination, "inclination", Inclination.Degrees, 0.0, 180.0, "degrees")
        ?? Outside(ElementField.RightAscension, "right ascension of the node", RightAscension.Degrees, 0.0, 360.0, "degrees")
        ?? Outside(ElementField.ArgumentOfPerigee, "argument of perigee", ArgumentOfPerigee.Degrees, 0.0, 360.0, "degrees")
        ?? Outside(ElementField.MeanAnomaly, "mean anomaly", MeanAnomaly.Degrees, 0.0, 360.0, "degrees")
        ?? Outside(ElementField.BStar, "drag term B*", BStar, -10.0, 10.0, "1/earth radii")
        ?? Outside(ElementField.CatalogNumber, "catalogue number", CatalogNumber, 0, 999_999_999, "")
        ?? (EphemerisType == ExtendedTheory
            ? new ElementError(ElementField.EphemerisType, "ephemeris type is 4, a theory other than SGP4; expected 0")
            : null);

    private static ElementError? Outside(
        ElementField which, string field, double value, double low, double high, string unit, bool exclusiveHigh = false)
    {
        bool good = value >= low && (exclusiveHigh ? value < high : value <= high);
        if (good)
        {
            return null;
        }

        string text = string.Create(CultureInfo.InvariantCulture, $"{field} is {value}, expected {low} to {(exclusiveHigh ? "below " : "")}{high} {unit}");
        return new ElementError(which, text.TrimEnd());
    }
}
