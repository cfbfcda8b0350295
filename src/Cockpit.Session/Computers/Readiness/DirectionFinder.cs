using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>What can be seen from a station whose direction is known: the sun's shadow, the moon, the pole star, landmarks. Pure.</summary>
public static class DirectionFinder
{
    /// <summary>Lower, haze and houses hide them, and refraction is a tenth of a degree and more.</summary>
    private const double LowestDegrees = 5.0;

    /// <summary>Above it the azimuth of a dish means little.</summary>
    private const double HighestDegrees = 75.0;

    /// <summary>Along the boom one points to a degree or two by eye, by the shadow of the feed to about the same; a judgement, no source.</summary>
    private static readonly Angle ByEye = Angle.FromDegrees(1.5);

    /// <summary>Nearer, a step aside turns the bearing by more than that.</summary>
    private const double NearestMetres = 200.0;

    /// <summary>What can be pointed at; empty where nothing is known.</summary>
    /// <param name="station">Where the dish stands.</param>
    /// <param name="landmarks">What can be seen from there and stands on the map.</param>
    /// <param name="utc">The moment, UTC.</param>
    public static ImmutableArray<DirectionOffer> At(Site station, ImmutableArray<Landmark> landmarks, DateTimeOffset utc)
    {
        Bearings sky = Bearings.At(station, utc);
        var offers = ImmutableArray.CreateBuilder<DirectionOffer>();
        if (IsUp(sky.Sun.Elevation))
        {
            offers.Add(new DirectionOffer("the sun", sky.Sun.Azimuth, sky.Sun.Elevation, ByEye, "the feed's shadow in the middle of the dish; never look along it, for a moment only"));
        }

        if (IsUp(sky.Moon.Elevation))
        {
            offers.Add(new DirectionOffer("the moon", sky.Moon.Azimuth, sky.Moon.Elevation, ByEye, "in line with feed and middle of the dish"));
        }

        if (sky.PolarisShows && IsUp(sky.Polaris.Elevation))
        {
            offers.Add(new DirectionOffer("the pole star", sky.Polaris.Azimuth, sky.Polaris.Elevation, ByEye, "in line with feed and middle of the dish"));
        }

        offers.AddRange(landmarks.IsDefault ? [] : landmarks.Select(landmark => Of(landmark, station)).OfType<DirectionOffer>());
        return offers.ToImmutable();
    }

    private static DirectionOffer? Of(Landmark landmark, Site station)
    {
        var line = Geodesic.Between(station, landmark.Site);
        if (line.DistanceMetres < NearestMetres)
        {
            return null;
        }

        Angle? elevation = landmark.HasHeight ? Angle.FromRadians(Math.Atan2(landmark.Site.HeightMetres - station.HeightMetres, line.DistanceMetres)) : null;
        return new DirectionOffer(landmark.Name, line.Azimuth, elevation, ByEye, "in line with feed and middle of the dish");
    }

    private static bool IsUp(Angle elevation) => elevation.Degrees is > LowestDegrees and < HighestDegrees;
}
