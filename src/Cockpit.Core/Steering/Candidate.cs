namespace Cockpit.Core.Steering;

/// <summary>What to do with the dish.</summary>
public enum MoveKind
{
    /// <summary>Leave it.</summary>
    Stay = 0,

    /// <summary>Move it by so much.</summary>
    Nudge = 1,

    /// <summary>Set it by compass and inclinometer.</summary>
    Compass = 2,
}

/// <summary>A move and what it is expected to cost.</summary>
/// <param name="Kind">What to do.</param>
/// <param name="First">Pan, or to the right, whole degrees.</param>
/// <param name="Second">Tilt, or up, whole degrees.</param>
/// <param name="Azimuth">Where the dish is to point afterwards, degrees.</param>
/// <param name="Elevation">The same, elevation.</param>
/// <param name="ReadAzimuth">What the compass is to read then, true azimuth, degrees; for a compass only.</param>
/// <param name="ReadElevation">What the inclinometer is to read.</param>
/// <param name="LinesLost">Picture lines expected to be lost within the time looked ahead.</param>
public readonly record struct Candidate(MoveKind Kind, double First, double Second, double Azimuth, double Elevation, double ReadAzimuth, double ReadElevation, double LinesLost);
