namespace Cockpit.Core.Geo;

/// <summary>Where a target is and how it moves, seen from a station: km and km/s along east, north and the ellipsoid's vertical.</summary>
/// <param name="East">km.</param>
/// <param name="North">km.</param>
/// <param name="Up">km.</param>
/// <param name="EastRate">km/s.</param>
/// <param name="NorthRate">km/s.</param>
/// <param name="UpRate">km/s.</param>
public readonly record struct EnuState(double East, double North, double Up, double EastRate, double NorthRate, double UpRate)
{
    /// <summary>Distance along the horizontal plane, km.</summary>
    public double GroundKm => Math.Sqrt((East * East) + (North * North));

    /// <summary>Distance, km.</summary>
    public double RangeKm => Math.Sqrt((East * East) + (North * North) + (Up * Up));

    /// <summary>Growth of the distance, km/s.</summary>
    public double RangeRateKmPerSec => ((East * EastRate) + (North * NorthRate) + (Up * UpRate)) / RangeKm;

    /// <summary>Azimuth, radians, (-pi, pi], from north through east; 0 at the zenith.</summary>
    public double AzimuthRadians => Math.Atan2(East, North);

    /// <summary>Elevation, radians.</summary>
    public double ElevationRadians => Math.Atan2(Up, GroundKm);

    /// <summary>Rate of the azimuth, rad/s; infinite or NaN at the zenith, where it has no value.</summary>
    internal double AzimuthRate => ((North * EastRate) - (East * NorthRate)) / ((East * East) + (North * North));

    /// <summary>Rate of the elevation, rad/s; NaN at the zenith.</summary>
    internal double ElevationRate
    {
        get
        {
            double ground = GroundKm;
            double groundRate = ((East * EastRate) + (North * NorthRate)) / ground;
            return ((UpRate * ground) - (Up * groundRate)) / ((ground * ground) + (Up * Up));
        }
    }
}
