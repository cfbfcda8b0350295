using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Frames;

/// <summary>Invented orbits and stations for properties.</summary>
internal static class Orbits
{
    public static readonly DateTimeOffset Epoch = new(2026, 11, 24, 12, 0, 0, TimeSpan.Zero);

    public static readonly Gen<Sgp4> Low = Gen.Select(
        Gen.Double[12.5, 15.5], Gen.Double[0, 180], Gen.Double[0, 0.02], Gen.Double[0, 360], Gen.Double[0, 360], Gen.Double[0, 360])
        .Select((revolutions, inclination, eccentricity, node, perigee, anomaly) => Of(revolutions, inclination, eccentricity, node, perigee, anomaly));

    public static readonly Gen<Site> Sites = Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Double[0, 3000])
        .Select((latitude, longitude, height) => Site(latitude, longitude, height));

    public static Site Site(double latitude, double longitude, double height = 0) =>
        new(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), height);

    public static Sgp4 Of(double revolutionsPerDay, double inclination, double eccentricity = 0.001, double node = 0, double perigee = 0, double anomaly = 0, double bStar = 1e-4) =>
        new(new ElementSet
        {
            Name = "PETREL 2",
            CatalogNumber = 99002,
            Epoch = JulianDate.FromUtc(Epoch),
            MeanMotionRevPerDay = revolutionsPerDay,
            Inclination = Angle.FromDegrees(inclination),
            Eccentricity = eccentricity,
            RightAscension = Angle.FromDegrees(node),
            ArgumentOfPerigee = Angle.FromDegrees(perigee),
            MeanAnomaly = Angle.FromDegrees(anomaly),
            BStar = bStar,
        });
}
