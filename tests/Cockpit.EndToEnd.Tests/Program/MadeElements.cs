using System.Globalization;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>Elements of a made-up orbit at any epoch, so that it has passes whenever a test runs.</summary>
internal static class MadeElements
{
    /// <summary>An OMM in its KVN form.</summary>
    /// <param name="epoch">UTC.</param>
    public static string Of(DateTimeOffset epoch) => string.Create(CultureInfo.InvariantCulture, $"""
        CCSDS_OMM_VERS = 3.0
        OBJECT_NAME = FENHERON 7
        OBJECT_ID = 2026-014A
        CENTER_NAME = EARTH
        REF_FRAME = TEME
        TIME_SYSTEM = UTC
        MEAN_ELEMENT_THEORY = SGP4
        EPOCH = {epoch:yyyy-MM-ddTHH:mm:ss}
        MEAN_MOTION = 14.1259251845123
        ECCENTRICITY = 0.00052691234
        INCLINATION = 98.81861234
        RA_OF_ASC_NODE = 153.75391234
        ARG_OF_PERICENTER = 308.71341234
        MEAN_ANOMALY = 69.41941234
        EPHEMERIS_TYPE = 0
        CLASSIFICATION_TYPE = U
        NORAD_CAT_ID = 79950
        ELEMENT_SET_NO = 731
        REV_AT_EPOCH = 5156
        BSTAR = 0.00010514
        MEAN_MOTION_DOT = 0.00000043
        MEAN_MOTION_DDOT = 0.0
        """);
}
