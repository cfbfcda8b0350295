using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>What one needs to find north at a station: for setting up a tripod by compass, by shadow, by a star or by a landmark.</summary>
/// <param name="Site">The station.</param>
/// <param name="Utc">The instant, UTC.</param>
/// <param name="Field">The magnetic field there and then.</param>
/// <param name="Sun">Where the sun is; no refraction.</param>
/// <param name="Moon">Where the moon is; no refraction.</param>
/// <param name="Polaris">Where the pole star is; no refraction.</param>
public sealed record Bearings(Site Site, DateTimeOffset Utc, MagneticField Field, LookAngles Sun, LookAngles Moon, SkyDirection Polaris)
{
    /// <summary>Below this elevation the sun casts no shadow that one could line up with.</summary>
    private static readonly Angle LowestForShadow = Angle.FromDegrees(1);

    /// <summary>Above this elevation a shadow is too short and turns too fast to line up with.</summary>
    private static readonly Angle HighestForShadow = Angle.FromDegrees(80);

    /// <summary>The sun's elevation at the end of civil twilight, when stars of the second magnitude come out.</summary>
    private static readonly Angle DarkBelow = Angle.FromDegrees(-6);

    /// <summary>Below this elevation haze hides a star of the second magnitude; common practice, no source.</summary>
    private static readonly Angle LowestForStar = Angle.FromDegrees(5);

    /// <summary>Works everything out.</summary>
    /// <param name="site">The station.</param>
    /// <param name="utc">The instant, UTC.</param>
    public static Bearings At(Site site, DateTimeOffset utc) => new(
        site,
        utc,
        WorldMagneticModel.At(site, utc),
        new BodyTrack(SkyBody.Sun, site).At(utc)!.Value,
        new BodyTrack(SkyBody.Moon, site).At(utc)!.Value,
        new StarTrack(Star.Polaris, site).At(utc));

    /// <summary>Whether the sky is dark enough to find the pole star by eye: civil twilight is over, and the star is clear of the haze.</summary>
    public bool PolarisShows => Sun.Elevation < DarkBelow && Polaris.Elevation > LowestForStar;

    /// <summary>True azimuth to which an upright stick throws its shadow; null when the sun is too low or too high for one.</summary>
    public Angle? Shadow => Sun.Elevation > LowestForShadow && Sun.Elevation < HighestForShadow
        ? (Sun.Azimuth + Angle.FromRadians(Math.PI)).WrappedToTurn()
        : null;

    /// <summary>Length of that shadow over the length of the stick; null when there is none.</summary>
    public double? ShadowLength => Shadow is null ? null : 1.0 / Math.Tan(Sun.Elevation.Radians);

    /// <summary>What can hurt here and now, one sentence each; empty when the sun is down.</summary>
    public ImmutableArray<string> Cautions => Sun.Elevation.Degrees < -1.0
        ? []
        :
        [
            "Line up by the shadow only: never look along the dish or at the sun itself, with or without glass.",
            "A shiny dish pointed at the sun has a hot focus that burns hands, eyes and the feed: keep out of it, use a matt dish or cover it.",
        ];
}
