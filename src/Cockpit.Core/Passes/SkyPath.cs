using System.Runtime.CompilerServices;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;

namespace Cockpit.Core.Passes;

/// <summary>A track as the search sees it. Kernel: radians, km, seconds since the start of the search.</summary>
/// <param name="track">The satellite over the station.</param>
/// <param name="start">Start of the search.</param>
internal sealed class SkyPath(SatelliteTrack track, JulianDate start)
{
    private const double GmKm3PerSec2 = 398600.8; // WGS-72, the propagator's own
    private const double PeriodicsKm = 30.0; // the oblate earth moves a low satellite by up to about 20 km around its mean orbit
    private const double VerticalRadians = 0.0044; // geodetic and geocentric vertical differ by up to 0.193 degrees; with room
    private const double RoomRadians = 0.005;
    private const double StepRadians = 0.0625; // about 60 s of a low orbit
    private const double ShortestStep = 15.0;
    private const double LongestStep = 300.0;

    private readonly EcefPosition _station = track.Frame.Position;

    /// <summary>The path at a time; false where the orbit model has no answer.</summary>
    public bool TryAt(double t, out PathPoint point) => TryAt(t, out point, out _);

    /// <summary>The path at a time inside a span that is known to be good; deep below the horizon should it fail all the same.</summary>
    public PathPoint At(double t) => TryAt(t, out PathPoint point) ? point : new PathPoint(t, -Math.PI / 2.0, -1.0, 0.0, 0.0, 1.0);

    /// <summary>How far the search may step from here without losing a rise, a set or a culmination.</summary>
    /// <param name="t">Now.</param>
    /// <param name="floor">The lowest elevation of interest.</param>
    /// <param name="seen">The path now; null where the orbit model has no answer.</param>
    /// <param name="quiet">Seconds from now in which the satellite is surely below the floor; 0 where that is not known.</param>
    /// <returns>A step, s, that is short against every change of the elevation's rate.</returns>
    /// <remarks>
    /// Quiet: at elevation e a satellite at radius r stands acos(R cos(e)/r) - e from the station, seen from the earth's
    /// centre; farther out the satellite is below e. The angle shrinks no faster than the satellite runs at its perigee and
    /// the earth turns. Both radii come from the orbit of the moment, widened by what the oblate earth adds.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    public double Step(double t, double floor, out PathPoint? seen, out double quiet)
    {
        quiet = 0.0;
        seen = null;
        if (!TryAt(t, out PathPoint point, out EcefState s))
        {
            return LongestStep;
        }

        seen = point;
        double vx = s.Vx - (EcefState.EarthRateRadPerSec * s.Y);
        double vy = s.Vy + (EcefState.EarthRateRadPerSec * s.X);
        double r = s.Position.RadiusKm;
        double v2 = (vx * vx) + (vy * vy) + (s.Vz * s.Vz);
        double radial = ((s.X * vx) + (s.Y * vy) + (s.Z * s.Vz)) / r;
        double momentum = r * Math.Sqrt(Math.Max(0.0, v2 - (radial * radial)));
        double axis = 1.0 / ((2.0 / r) - (v2 / GmKm3PerSec2));
        double eccentricity = Math.Sqrt(Math.Max(0.0, 1.0 - (momentum * momentum / (GmKm3PerSec2 * axis))));
        double perigee = (axis * (1.0 - eccentricity)) - PeriodicsKm;
        double apogee = (axis * (1.0 + eccentricity)) + PeriodicsKm;
        if (!(axis > 0.0) || !(perigee > 0.0))
        {
            return ShortestStep;
        }

        double fastest = 1.02 * momentum / (perigee * perigee);
        double stationRadius = _station.RadiusKm;
        double cosAngle = ((s.X * _station.X) + (s.Y * _station.Y) + (s.Z * _station.Z)) / (r * stationRadius);
        double lowest = floor - VerticalRadians;
        double reach = Math.Acos(Math.Min(1.0, stationRadius * Math.Cos(lowest) / apogee)) - lowest;
        quiet = Math.Max(0.0, (Math.Acos(Math.Clamp(cosAngle, -1.0, 1.0)) - reach - RoomRadians) / (fastest + EcefState.EarthRateRadPerSec));
        return Math.Clamp(StepRadians / fastest, ShortestStep, LongestStep);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private bool TryAt(double t, out PathPoint point, out EcefState state)
    {
        point = default;
        if (track.PropagateEarthFixed(start.AddSeconds(t), out state) != PropagationStatus.Good)
        {
            return false;
        }

        EnuState enu = track.Frame.ToEnu(state);
        point = new PathPoint(t, enu.ElevationRadians, Finite(enu.ElevationRate), enu.AzimuthRadians, Finite(enu.AzimuthRate), enu.RangeRateKmPerSec);
        return true;
    }

    private static double Finite(double rate) => double.IsFinite(rate) ? rate : 0.0;
}

/// <summary>One point of a path: seconds, radians, rad/s, km/s.</summary>
internal readonly record struct PathPoint(double T, double Elevation, double Rate, double Azimuth, double AzimuthRate, double RangeRate);
