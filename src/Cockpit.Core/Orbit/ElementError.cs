namespace Cockpit.Core.Orbit;

/// <summary>The elements that have a range.</summary>
public enum ElementField
{
    /// <summary>Mean motion.</summary>
    MeanMotion,

    /// <summary>Eccentricity.</summary>
    Eccentricity,

    /// <summary>Inclination.</summary>
    Inclination,

    /// <summary>Right ascension of the ascending node.</summary>
    RightAscension,

    /// <summary>Argument of perigee.</summary>
    ArgumentOfPerigee,

    /// <summary>Mean anomaly.</summary>
    MeanAnomaly,

    /// <summary>Drag term B*.</summary>
    BStar,

    /// <summary>Catalogue number.</summary>
    CatalogNumber,

    /// <summary>Ephemeris type.</summary>
    EphemerisType,
}

/// <summary>A number that cannot be an element.</summary>
/// <param name="Field">Which one.</param>
/// <param name="Message">What was found and what is expected, one clause that names the field.</param>
public readonly record struct ElementError(ElementField Field, string Message);
