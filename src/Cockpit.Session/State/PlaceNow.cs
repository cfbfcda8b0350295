using System.Globalization;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>Where a receiver of navigation satellites says that this is.</summary>
/// <param name="Latitude">North positive, WGS 84.</param>
/// <param name="Longitude">East positive.</param>
/// <param name="HeightMetres">Above the ellipsoid; null where it is not told.</param>
/// <param name="DistanceMetres">From the station of the session, along the ellipsoid.</param>
/// <param name="IsFar">Whether that is more than <see cref="ToleranceMetres"/>, and beyond doubt: so far every place of the last seconds was.</param>
public sealed record PlaceNow(Angle Latitude, Angle Longitude, double? HeightMetres, double DistanceMetres, bool IsFar)
{
    /// <summary>What a station may be off before it is told: much more than any receiver errs, and nothing that moves the satellite.</summary>
    public const double ToleranceMetres = 200;

    /// <summary>The place as the option --station takes it, to a metre.</summary>
    public string AsOption => string.Create(
        CultureInfo.InvariantCulture, $"{Latitude.Degrees:0.00000},{Longitude.Degrees:0.00000}{(HeightMetres is { } height ? string.Create(CultureInfo.InvariantCulture, $",{height:0}") : "")}");
}
