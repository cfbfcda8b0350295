using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>Where a target is, seen from a station; geometric, topocentric, WGS 84 horizon.</summary>
/// <param name="Azimuth">True, from north through east, [0°, 360°).</param>
/// <param name="Elevation">Above the horizon, [-90°, 90°].</param>
/// <param name="RangeKm">Distance, km.</param>
/// <param name="RangeRateKmPerSec">Its growth, km/s, positive when the target goes away.</param>
public readonly record struct LookAngles(Angle Azimuth, Angle Elevation, double RangeKm, double RangeRateKmPerSec);

/// <summary>The path of one target over one station.</summary>
public interface ITrack
{
    /// <summary>Look angles at an instant (UTC); null where the orbit model has no answer (for instance after decay).</summary>
    LookAngles? At(DateTimeOffset utc);
}
