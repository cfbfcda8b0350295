using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>A made-up pass with a closed formula: circular orbit over a sphere that does not turn.</summary>
/// <remarks>
/// Earth radius 6371 km, orbit 830 km up, ground track heading 192°, rise and set at 5°. Geometry: a circular orbit whose
/// plane passes the station at the central angle L0 = acos(R cos E / a) - E, E the highest elevation; J. R. Wertz, Space
/// Mission Analysis and Design, 3rd ed., section 5.2 (from memory). GM = 398600.4418 km^3/s^2: IERS Conventions 2010, table 1.1.
/// </remarks>
public sealed class CircularPass : ITrack
{
    private const double RadiusKm = 6371.0;
    private const double HeightKm = 830.0;
    private const double OrbitKm = RadiusKm + HeightKm;
    private const double RiseDegrees = 5.0;
    private const double HeadingDegrees = 192.0;

    private static readonly double RatePerSec = Math.Sqrt(398600.4418 / (OrbitKm * OrbitKm * OrbitKm));

    private readonly DateTimeOffset _aos;
    private readonly double _offset;
    private readonly double _halfArc;

    /// <summary>A pass of a given highest elevation that rises at a given instant.</summary>
    /// <param name="aos">When it rises above 5°, UTC.</param>
    /// <param name="highest">Highest elevation, above 5°, to 90°.</param>
    public CircularPass(DateTimeOffset aos, Angle highest)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(highest.Degrees, RiseDegrees, nameof(highest));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(highest.Degrees, 90.0, nameof(highest));
        _aos = aos;
        Angle rise = Angle.FromDegrees(RiseDegrees);
        _offset = CentralAngle(highest);
        _halfArc = Math.Acos(Math.Cos(CentralAngle(rise)) / Math.Cos(_offset));
    }

    /// <summary>Time from rise to set.</summary>
    public TimeSpan Duration => TimeSpan.FromSeconds(2.0 * _halfArc / RatePerSec);

    /// <summary>The pass from 5° to 5°.</summary>
    public Pass Pass => new(MomentAt(_aos), MomentAt(_aos + (Duration / 2)), MomentAt(_aos + Duration));

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc) => LookAt(utc);

    private PassMoment MomentAt(DateTimeOffset utc) => new(utc, LookAt(utc));

    private LookAngles LookAt(DateTimeOffset utc)
    {
        // Axes along the ground track, across it, and up at the station; km and radians.
        double arc = (RatePerSec * (utc - _aos).TotalSeconds) - _halfArc;
        (double sinArc, double cosArc) = Math.SinCos(arc);
        (double sinOffset, double cosOffset) = Math.SinCos(_offset);
        double along = OrbitKm * sinArc;
        double across = OrbitKm * cosArc * sinOffset;
        double up = (OrbitKm * cosArc * cosOffset) - RadiusKm;

        (double sinHeading, double cosHeading) = Math.SinCos(Angle.FromDegrees(HeadingDegrees).Radians);
        double east = (along * sinHeading) + (across * cosHeading);
        double north = (along * cosHeading) - (across * sinHeading);
        double range = Math.Sqrt((along * along) + (across * across) + (up * up));

        double alongRate = OrbitKm * cosArc * RatePerSec;
        double acrossRate = -OrbitKm * sinArc * sinOffset * RatePerSec;
        double upRate = -OrbitKm * sinArc * cosOffset * RatePerSec;
        double rangeRate = ((along * alongRate) + (across * acrossRate) + (up * upRate)) / range;
        return new LookAngles(
            Angle.FromRadians(Math.Atan2(east, north)).WrappedToTurn(),
            Angle.FromRadians(Math.Asin(Math.Clamp(up / range, -1.0, 1.0))),
            range,
            rangeRate);
    }

    private static double CentralAngle(Angle elevation) =>
        Math.Acos(RadiusKm * elevation.Cos() / OrbitKm) - elevation.Radians;
}
