using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Reports;

/// <summary>The ground below a pass in a plane: km east and north of the station.</summary>
/// <remarks>Azimuthal equidistant about the station, on a sphere: distances from the station are true to the scale, 0.3 % aside.</remarks>
internal sealed class GroundView
{
    private const double EarthKm = 6371.0;
    private const double StepSeconds = 5.0;
    private const double WideTurn = 0.25;
    private const int Halvings = 30;

    private readonly Site _station;
    private readonly Sgp4 _satellite;
    private readonly Angle _halfAngle;

    private GroundView(Site station, Sgp4 satellite, Angle halfAngle) => (_station, _satellite, _halfAngle) = (station, satellite, halfAngle);

    /// <summary>The ground of a session; null where its elements give none.</summary>
    /// <param name="settings">Station and elements.</param>
    /// <param name="halfAngle">The scan to either side of the vertical.</param>
    public static GroundView? Of(SessionSettings settings, Angle halfAngle) =>
        settings.Elements is { } elements && Sgp4.Validate(elements) is null ? new GroundView(settings.Station, new Sgp4(elements), halfAngle) : null;

    /// <summary>Points below the satellite.</summary>
    public IEnumerable<(double East, double North)?> Track(DateTimeOffset from, DateTimeOffset to) => Times(from, to).Select(utc => Seen(utc, Angle.Zero));

    /// <summary>What the instrument sees from one time to another, as one shape.</summary>
    public IEnumerable<(double East, double North)?> Swath(DateTimeOffset from, DateTimeOffset to)
    {
        DateTimeOffset[] times = [.. Times(from, to)];
        return times.Select(utc => Seen(utc, -_halfAngle)).Concat(times.Reverse().Select(utc => Seen(utc, _halfAngle))).Where(p => p is not null);
    }

    /// <summary>A point of the scan, -1 at its left end, 1 at its right one.</summary>
    public (double East, double North)? Seen(DateTimeOffset utc, double share) => Seen(utc, share * _halfAngle);

    /// <summary>A place on the plane.</summary>
    public (double East, double North) Of(Angle latitude, Angle longitude)
    {
        Angle turn = longitude - _station.Longitude;
        double east = latitude.Cos() * turn.Sin();
        double north = (_station.Latitude.Cos() * latitude.Sin()) - (_station.Latitude.Sin() * latitude.Cos() * turn.Cos());
        double up = (_station.Latitude.Sin() * latitude.Sin()) + (_station.Latitude.Cos() * latitude.Cos() * turn.Cos());
        double length = Math.Sqrt((east * east) + (north * north));
        double km = EarthKm * Math.Atan2(length, up);
        return length > 0.0 ? (km * east / length, km * north / length) : (0.0, 0.0);
    }

    /// <summary>The land within a distance of the station, as shapes of which an odd number covers land; what lies farther is pressed on to the circle.</summary>
    public IEnumerable<IEnumerable<(double East, double North)?>> Land(double km)
    {
        bool inverted = false;
        foreach (var coast in Coastlines.All)
        {
            (double East, double North)[] ring = [.. coast.Select(p => Of(p.Latitude, p.Longitude))];
            if (ring.Any(p => Distance(p) < km))
            {
                inverted ^= Coastlines.GoesAround(coast, -_station.Latitude, (_station.Longitude + Angle.FromDegrees(180.0)).WrappedToHalfTurn());
                yield return Pressed(ring, km);
            }
        }

        // The far side of the earth lies all around the plane: a coast that goes around the place opposite has its land outside.
        if (inverted)
        {
            yield return Enumerable.Range(0, 36).Select(i => ((double, double)?)(km * Math.Sin(i * Math.PI / 18.0), km * Math.Cos(i * Math.PI / 18.0)));
        }
    }

    /// <summary>The coasts within a distance, as lines.</summary>
    public IEnumerable<(double East, double North)?> Coast(double km) => Coastlines.All.SelectMany(coast =>
        coast.Append(coast[0]).Select(p => Of(p.Latitude, p.Longitude)).Select(p => Distance(p) > km ? ((double, double)?)null : p).Append(null));

    private static double Distance((double East, double North) p) => Math.Sqrt((p.East * p.East) + (p.North * p.North));

    private static IEnumerable<(double East, double North)?> Pressed((double East, double North)[] ring, double km)
    {
        double? before = null;
        foreach ((double East, double North) point in ring)
        {
            double length = Distance(point);
            if (length <= km)
            {
                before = null;
                yield return point;
                continue;
            }

            // On the circle, in steps small enough that no chord cuts into the picture.
            double angle = Math.Atan2(point.East, point.North);
            double turn = before is { } last ? Math.IEEERemainder(angle - last, 2.0 * Math.PI) : 0.0;
            if (before is null || Math.Abs(turn) > WideTurn)
            {
                int steps = Math.Max(1, (int)(Math.Abs(turn) / WideTurn));
                for (int i = 1; i <= steps; i++)
                {
                    double at = angle - turn + (turn * i / steps);
                    yield return (km * Math.Sin(at), km * Math.Cos(at));
                }

                before = angle;
            }
        }
    }

    private static IEnumerable<DateTimeOffset> Times(DateTimeOffset from, DateTimeOffset to)
    {
        for (DateTimeOffset at = from; at < to; at = at.AddSeconds(StepSeconds))
        {
            yield return at;
        }

        yield return to;
    }

    private (double East, double North)? Seen(DateTimeOffset utc, Angle scan)
    {
        var moment = JulianDate.FromUtc(utc);
        return _satellite.Propagate(moment.MinutesSince(_satellite.Elements.Epoch), out TemeState teme) == PropagationStatus.Good
            && Ground(new ScanLine(EcefState.FromTeme(teme, SiderealTime.Greenwich(moment))), scan) is { } ground
                ? Of(ground.Latitude, ground.Longitude)
                : null;
    }

    // A scan that looks past the earth ends at its edge.
    private static Site? Ground(ScanLine line, Angle scan)
    {
        if (line.At(scan) is { } ground)
        {
            return ground;
        }

        (double seen, double past) = (0.0, 1.0);
        for (int i = 0; i < Halvings; i++)
        {
            double middle = (seen + past) / 2.0;
            (seen, past) = line.At(middle * scan) is null ? (seen, middle) : (middle, past);
        }

        return line.At(seen * scan);
    }
}
