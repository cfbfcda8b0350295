using System.Collections.Immutable;

namespace Cockpit.Checks;

/// <summary>One invented satellite in every form of element files, and several forms in one file.</summary>
public static class ElementSamples
{
    /// <summary>Three-line TLE.</summary>
    public const string Tle = """
        PETREL 2
        1 99101U 26010A   26328.24903196  .00000147  00000-0  14012-3 0  4048
        2 99101  98.5970  30.2891 0012686 278.7665 108.0468 14.27965384291364

        """;

    /// <summary>OMM, keyword = value.</summary>
    public const string Kvn = """
        CCSDS_OMM_VERS = 3.0
        CREATION_DATE  = 2026-11-25T06:00:00
        ORIGINATOR     = INVENTED

        OBJECT_NAME    = PETREL 2
        OBJECT_ID      = 2026-010A
        CENTER_NAME    = EARTH
        REF_FRAME      = TEME
        TIME_SYSTEM    = UTC
        MEAN_ELEMENT_THEORY = SGP4

        COMMENT mean elements of an invented object
        EPOCH          = 2026-11-24T05:58:36.361344
        MEAN_MOTION    = 14.27965384 [rev/day]
        ECCENTRICITY   = 0.0012686
        INCLINATION    = 98.5970 [deg]
        RA_OF_ASC_NODE = 30.2891 [deg]
        ARG_OF_PERICENTER = 278.7665 [deg]
        MEAN_ANOMALY   = 108.0468 [deg]
        NORAD_CAT_ID   = 99101
        BSTAR          = 0.00014012
        MEAN_MOTION_DOT = 1.47e-06
        MEAN_MOTION_DDOT = 0.0

        """;

    /// <summary>OMM in XML.</summary>
    public const string Xml = """
        <?xml version="1.0" encoding="UTF-8"?>
        <ndm><!-- invented -->
        <omm id="CCSDS_OMM_VERS" version="3.0"><header><CREATION_DATE>2026-11-25T06:00:00</CREATION_DATE><ORIGINATOR>INVENTED</ORIGINATOR></header>
        <body><segment><metadata><OBJECT_NAME>PETREL 2</OBJECT_NAME><OBJECT_ID>2026-010A</OBJECT_ID><CENTER_NAME>EARTH</CENTER_NAME>
        <REF_FRAME>TEME</REF_FRAME><TIME_SYSTEM>UTC</TIME_SYSTEM><MEAN_ELEMENT_THEORY>SGP4</MEAN_ELEMENT_THEORY></metadata>
        <data><meanElements><EPOCH>2026-11-24T05:58:36.361344</EPOCH><MEAN_MOTION units="rev/day">14.27965384</MEAN_MOTION>
        <ECCENTRICITY>0.0012686</ECCENTRICITY><INCLINATION>98.5970</INCLINATION><RA_OF_ASC_NODE>30.2891</RA_OF_ASC_NODE>
        <ARG_OF_PERICENTER>278.7665</ARG_OF_PERICENTER><MEAN_ANOMALY>108.0468</MEAN_ANOMALY></meanElements>
        <tleParameters><NORAD_CAT_ID>99101</NORAD_CAT_ID><BSTAR>0.00014012</BSTAR></tleParameters></data></segment></body></omm>
        </ndm>

        """;

    /// <summary>OMM as JSON objects in a list.</summary>
    public const string Json = """
        [{"OBJECT_NAME":"PETREL 2","OBJECT_ID":"2026-010A","EPOCH":"2026-11-24T05:58:36.361344","MEAN_MOTION":14.27965384,
        "ECCENTRICITY":0.0012686,"INCLINATION":98.597,"RA_OF_ASC_NODE":30.2891,"ARG_OF_PERICENTER":278.7665,"MEAN_ANOMALY":108.0468,
        "EPHEMERIS_TYPE":0,"CLASSIFICATION_TYPE":"U","NORAD_CAT_ID":99101,"ELEMENT_SET_NO":404,"REV_AT_EPOCH":29136,"BSTAR":0.00014012},
        {"OBJECT_NAME":"PETREL 3","EPOCH":"2026-328T05:58:36Z","MEAN_MOTION":"2.0056","ECCENTRICITY":".72","INCLINATION":63.4,
        "RA_OF_ASC_NODE":30,"ARG_OF_PERICENTER":270,"MEAN_ANOMALY":10,"NORAD_CAT_ID":99102,"BSTAR":1e-4}]

        """;

    /// <summary>OMM as a table with headings.</summary>
    public const string Table = """"
        OBJECT_NAME,OBJECT_ID,EPOCH,MEAN_MOTION,ECCENTRICITY,INCLINATION,RA_OF_ASC_NODE,ARG_OF_PERICENTER,MEAN_ANOMALY,NORAD_CAT_ID,BSTAR
        PETREL 2,2026-010A,2026-11-24T05:58:36.361344,14.27965384,.0012686,98.597,30.2891,278.7665,108.0468,99101,.00014012
        "PETREL ""3""",2026-010B,2026-11-24T05:58:36.361344,1.0027,.0002,0.02,30.2891,278.7665,108.0468,99102,0

        """";

    /// <summary>Every form alone, then all of them in one.</summary>
    public static ImmutableArray<string> All { get; } = [Tle, Kvn, Xml, Json, Table, Tle + Json + Kvn + Table + Xml + Tle];
}
