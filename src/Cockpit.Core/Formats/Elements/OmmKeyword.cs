using System.Collections.Frozen;

namespace Cockpit.Core.Formats.Elements;

/// <summary>The keywords of an OMM that are read; all others are passed over.</summary>
/// <remarks>Source: CCSDS 502.0-B-3, Orbit Data Messages, section 4.</remarks>
internal static class OmmKeyword
{
    internal const string Version = "CCSDS_OMM_VERS";
    internal const string ObjectName = "OBJECT_NAME";
    internal const string ObjectId = "OBJECT_ID";
    internal const string CenterName = "CENTER_NAME";
    internal const string RefFrame = "REF_FRAME";
    internal const string TimeSystem = "TIME_SYSTEM";
    internal const string Theory = "MEAN_ELEMENT_THEORY";
    internal const string Epoch = "EPOCH";
    internal const string MeanMotion = "MEAN_MOTION";
    internal const string SemiMajorAxis = "SEMI_MAJOR_AXIS";
    internal const string Eccentricity = "ECCENTRICITY";
    internal const string Inclination = "INCLINATION";
    internal const string RightAscension = "RA_OF_ASC_NODE";
    internal const string ArgumentOfPerigee = "ARG_OF_PERICENTER";
    internal const string MeanAnomaly = "MEAN_ANOMALY";
    internal const string EphemerisType = "EPHEMERIS_TYPE";
    internal const string Classification = "CLASSIFICATION_TYPE";
    internal const string CatalogNumber = "NORAD_CAT_ID";
    internal const string ElementSetNumber = "ELEMENT_SET_NO";
    internal const string Revolution = "REV_AT_EPOCH";
    internal const string BStar = "BSTAR";
    internal const string MeanMotionDot = "MEAN_MOTION_DOT";
    internal const string MeanMotionDdot = "MEAN_MOTION_DDOT";

    /// <summary>All of them.</summary>
    internal static FrozenSet<string> Known { get; } = FrozenSet.ToFrozenSet(
        [
            Version, ObjectName, ObjectId, CenterName, RefFrame, TimeSystem, Theory, Epoch, MeanMotion, SemiMajorAxis, Eccentricity,
            Inclination, RightAscension, ArgumentOfPerigee, MeanAnomaly, EphemerisType, Classification, CatalogNumber,
            ElementSetNumber, Revolution, BStar, MeanMotionDot, MeanMotionDdot,
        ],
        StringComparer.Ordinal);
}
