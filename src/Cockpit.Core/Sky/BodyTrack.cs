using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>The sun or the moon over one station: centre of the disc, no refraction, parallax in.</summary>
/// <param name="body">Which.</param>
/// <param name="site">The station.</param>
public sealed class BodyTrack(SkyBody body, Site site) : ITrack
{
    private const double EquatorKm = 6378.137; // WGS 84
    private const double Flattening = 1.0 / 298.257223563; // WGS 84
    private const double RateStepSeconds = 1.0;

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc) => Look(JulianDate.FromUtc(utc));

    /// <summary>Look angles at a moment.</summary>
    /// <param name="utc">The moment in UTC; UT1 is taken equal to it.</param>
    /// <param name="terrestrialMinusUtcSeconds">TT - UTC, seconds.</param>
    /// <remarks>Error about 0.001° for the sun and 0.005° for the moon; the range rate is a difference over two seconds.</remarks>
    public LookAngles Look(JulianDate utc, double terrestrialMinusUtcSeconds = TerrestrialTime.MinusUtcSeconds)
    {
        (double east, double north, double up) = Horizontal(utc, terrestrialMinusUtcSeconds);
        double range = Length(east, north, up);
        double before = RangeKm(utc.AddSeconds(-RateStepSeconds), terrestrialMinusUtcSeconds);
        double after = RangeKm(utc.AddSeconds(RateStepSeconds), terrestrialMinusUtcSeconds);
        return new LookAngles(
            new Angle(Math.Atan2(east, north)).WrappedToTurn(),
            new Angle(Math.Atan2(up, Math.Sqrt((east * east) + (north * north)))),
            range,
            (after - before) / (2.0 * RateStepSeconds));
    }

    private static double Length(double x, double y, double z) => Math.Sqrt((x * x) + (y * y) + (z * z));

    private double RangeKm(JulianDate utc, double terrestrialMinusUtcSeconds)
    {
        (double east, double north, double up) = Horizontal(utc, terrestrialMinusUtcSeconds);
        return Length(east, north, up);
    }

    // km. The station stands on the meridian plane x-z of a frame turned to its own longitude; the body is put into the same frame.
    private (double East, double North, double Up) Horizontal(JulianDate utc, double terrestrialMinusUtcSeconds)
    {
        var place = ApparentPlace.Of(body, utc, terrestrialMinusUtcSeconds);
        Angle eastOfStation = place.RightAscension - place.Greenwich - site.Longitude;
        double flat = place.DistanceKm * place.Declination.Cos();
        (double sine, double cosine) = Math.SinCos(site.Latitude.Radians);
        double squared = Flattening * (2.0 - Flattening);
        double normal = EquatorKm / Math.Sqrt(1.0 - (squared * sine * sine));
        double height = site.HeightMetres / 1e3;
        double x = (flat * eastOfStation.Cos()) - ((normal + height) * cosine);
        double y = flat * eastOfStation.Sin();
        double z = (place.DistanceKm * place.Declination.Sin()) - (((normal * (1.0 - squared)) + height) * sine);
        return (y, (z * cosine) - (x * sine), (x * cosine) + (z * sine));
    }
}
