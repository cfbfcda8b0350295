using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>The sun or the moon over one station: centre of the disc, no refraction, parallax in.</summary>
/// <param name="body">Which.</param>
/// <param name="site">The station.</param>
public sealed class BodyTrack(SkyBody body, Site site) : ITrack
{
    private const double RateStepSeconds = 1.0;

    private readonly StationFrame _frame = new(site);

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc) => Look(JulianDate.FromUtc(utc));

    /// <summary>Look angles at a moment.</summary>
    /// <param name="utc">The moment in UTC; UT1 is taken equal to it.</param>
    /// <param name="terrestrialMinusUtcSeconds">TT - UTC, seconds.</param>
    /// <remarks>Error about 0.001° for the sun and 0.005° for the moon; the range rate is a difference over two seconds.</remarks>
    public LookAngles Look(JulianDate utc, double terrestrialMinusUtcSeconds = TerrestrialTime.MinusUtcSeconds)
    {
        EcefPosition At(double seconds) => ApparentPlace.Of(body, utc.AddSeconds(seconds), terrestrialMinusUtcSeconds).EarthFixed;

        EcefPosition now = At(0.0);
        EcefPosition before = At(-RateStepSeconds);
        EcefPosition after = At(RateStepSeconds);
        double Rate(double earlier, double later) => (later - earlier) / (2.0 * RateStepSeconds);
        EnuState seen = _frame.ToEnu(new EcefState(
            now.X, now.Y, now.Z, Rate(before.X, after.X), Rate(before.Y, after.Y), Rate(before.Z, after.Z)));
        return new LookAngles(
            Angle.FromRadians(seen.AzimuthRadians).WrappedToTurn(), Angle.FromRadians(seen.ElevationRadians), seen.RangeKm, seen.RangeRateKmPerSec);
    }
}
