namespace Cockpit.Core.Geo;

/// <summary>The horizon of a station made ready: its place and its axes east, north, up on WGS 84.</summary>
public sealed class StationFrame
{
    private readonly double _sinLat;
    private readonly double _cosLat;
    private readonly double _sinLon;
    private readonly double _cosLon;

    /// <summary>Prepares the frame of a site.</summary>
    public StationFrame(Site site)
    {
        Site = site;
        Position = EcefPosition.FromSite(site);
        (_sinLat, _cosLat) = Math.SinCos(site.Latitude.Radians);
        (_sinLon, _cosLon) = Math.SinCos(site.Longitude.Radians);
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>The same, Earth-fixed.</summary>
    public EcefPosition Position { get; }

    /// <summary>A target as this station sees it; no refraction, no light time.</summary>
    public EnuState ToEnu(in EcefState target)
    {
        (double east, double north, double up) = Turn(target.X - Position.X, target.Y - Position.Y, target.Z - Position.Z);
        (double eastRate, double northRate, double upRate) = Turn(target.Vx, target.Vy, target.Vz);
        return new EnuState(east, north, up, eastRate, northRate, upRate);
    }

    /// <summary>Where a target is that this station sees; undoes <see cref="ToEnu"/> for the position.</summary>
    /// <param name="east">km.</param>
    /// <param name="north">km.</param>
    /// <param name="up">km.</param>
    public EcefPosition FromEnu(double east, double north, double up)
    {
        double outward = (_cosLat * up) - (_sinLat * north);
        return new EcefPosition(
            Position.X + (_cosLon * outward) - (_sinLon * east),
            Position.Y + (_sinLon * outward) + (_cosLon * east),
            Position.Z + (_cosLat * north) + (_sinLat * up));
    }

    private (double East, double North, double Up) Turn(double x, double y, double z)
    {
        double outward = (_cosLon * x) + (_sinLon * y);
        return ((_cosLon * y) - (_sinLon * x), (_cosLat * z) - (_sinLat * outward), (_cosLat * outward) + (_sinLat * z));
    }
}
