using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>One satellite over one station: element set, SGP4, sidereal time, WGS 84.</summary>
/// <remarks>
/// Geometric: no refraction, no light time, no aberration, no polar motion (see <see cref="EcefState"/> for its size).
/// Immutable; any number of threads may ask at once.
/// </remarks>
public sealed class SatelliteTrack : ITrack
{
    private const double AccelerationStepMinutes = 0.25 / 60.0;

    /// <summary>Puts a satellite over a station.</summary>
    /// <param name="satellite">The propagation.</param>
    /// <param name="station">Where one stands.</param>
    /// <param name="ut1MinusUtcSeconds">UT1 - UTC, s, within ±1; one second is worth 465 m at the equator.</param>
    /// <exception cref="ArgumentOutOfRangeException">UT1 - UTC is not within ±1 s.</exception>
    public SatelliteTrack(Sgp4 satellite, Site station, double ut1MinusUtcSeconds = 0.0)
    {
        ArgumentNullException.ThrowIfNull(satellite);
        if (!(Math.Abs(ut1MinusUtcSeconds) <= 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(ut1MinusUtcSeconds), "UT1 - UTC must be within one second");
        }

        Satellite = satellite;
        Ut1MinusUtcSeconds = ut1MinusUtcSeconds;
        Frame = new StationFrame(station);
    }

    /// <summary>The propagation.</summary>
    public Sgp4 Satellite { get; }

    /// <summary>The station.</summary>
    public Site Station => Frame.Site;

    /// <summary>UT1 - UTC, s.</summary>
    public double Ut1MinusUtcSeconds { get; }

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc) =>
        Propagate(JulianDate.FromUtc(utc), out EnuState state) == PropagationStatus.Good ? LookAnglesOf(state) : null;

    /// <summary>How the look angles change at an instant (UTC); null where the orbit model has no answer.</summary>
    /// <remarks>The rates of the angles are exact; the range acceleration is a difference over half a second, good to 1e-7 km/s².</remarks>
    public LookRates? RatesAt(DateTimeOffset utc)
    {
        JulianDate now = JulianDate.FromUtc(utc);
        if (Propagate(now, out EnuState state) != PropagationStatus.Good
            || Propagate(now.AddMinutes(-AccelerationStepMinutes), out EnuState before) != PropagationStatus.Good
            || Propagate(now.AddMinutes(AccelerationStepMinutes), out EnuState after) != PropagationStatus.Good)
        {
            return null;
        }

        bool overhead = state.GroundKm < 1e-9 * state.RangeKm;
        double acceleration = (after.RangeRateKmPerSec - before.RangeRateKmPerSec) / (120.0 * AccelerationStepMinutes);
        return new LookRates(
            overhead ? null : Angle.FromRadians(state.AzimuthRate),
            overhead ? null : Angle.FromRadians(state.ElevationRate),
            acceleration);
    }

    /// <summary>Look angles at a moment given to the last digit.</summary>
    /// <param name="utc">The moment, UTC.</param>
    /// <param name="look">Look angles; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus Propagate(JulianDate utc, out LookAngles look)
    {
        PropagationStatus status = Propagate(utc, out EnuState state);
        look = status == PropagationStatus.Good ? LookAnglesOf(state) : default;
        return status;
    }

    /// <summary>Position and velocity over the station.</summary>
    /// <param name="utc">The moment, UTC.</param>
    /// <param name="state">East, north, up; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus Propagate(JulianDate utc, out EnuState state)
    {
        PropagationStatus status = PropagateEarthFixed(utc, out EcefState fixedState);
        state = status == PropagationStatus.Good ? Frame.ToEnu(fixedState) : default;
        return status;
    }

    /// <summary>Position and velocity on the turning earth.</summary>
    /// <param name="utc">The moment, UTC.</param>
    /// <param name="state">Earth-fixed; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus PropagateEarthFixed(JulianDate utc, out EcefState state)
    {
        PropagationStatus status = Satellite.Propagate(utc.MinutesSince(Satellite.Elements.Epoch), out TemeState teme);
        state = status == PropagationStatus.Good
            ? EcefState.FromTeme(teme, SiderealTime.Greenwich(utc.AddSeconds(Ut1MinusUtcSeconds)))
            : default;
        return status;
    }

    /// <summary>The station's axes.</summary>
    internal StationFrame Frame { get; }

    internal static LookAngles LookAnglesOf(in EnuState state) => new(
        Angle.FromRadians(state.AzimuthRadians).WrappedToTurn(),
        Angle.FromRadians(state.ElevationRadians),
        state.RangeKm,
        state.RangeRateKmPerSec);
}

/// <summary>How look angles change.</summary>
/// <param name="AzimuthPerSecond">Angle a second, positive clockwise; null exactly overhead, where it has no value.</param>
/// <param name="ElevationPerSecond">Angle a second, positive while the target climbs; null exactly overhead.</param>
/// <param name="RangeAccelerationKmPerSec2">Growth of the range rate, km/s².</param>
public readonly record struct LookRates(Angle? AzimuthPerSecond, Angle? ElevationPerSecond, double RangeAccelerationKmPerSec2);
