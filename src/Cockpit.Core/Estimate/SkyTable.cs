using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Estimate;

/// <summary>Where the satellite is at one moment, and what a well-pointed dish receives of it; degrees and dB.</summary>
/// <param name="Direction">Unit vector east, north, up.</param>
/// <param name="Azimuth">True azimuth, degrees, [0, 360).</param>
/// <param name="Elevation">Elevation, degrees.</param>
/// <param name="MarginDb">Nominal margin over the threshold of the picture.</param>
/// <param name="Steepness">What one unit of the unknown steepness of the level adds, dB.</param>
/// <param name="FadingDb">Standard deviation of the fading.</param>
public readonly record struct SkyPoint(Vector Direction, double Azimuth, double Elevation, double MarginDb, double Steepness, double FadingDb);

/// <summary>One pass sampled every half second, looked up by seconds since its begin; pure, allocates only when made.</summary>
/// <remarks>
/// How the level of a well-pointed dish goes along a pass is known badly: by the full budget it falls towards the horizon
/// about 4 dB more than with a satellite antenna that is shaped to make up for the distance. The nominal law lies half-way, and
/// one number, the steepness (standard normal, positive = flatter), is left to the estimate. Fading: 0.4 dB overhead, 1.2 dB
/// at 5 degrees (design value).
/// </remarks>
public sealed class SkyTable
{
    /// <summary>Seconds between two samples.</summary>
    public const double Step = 0.5;

    private const double Aside = 0.25; // square degrees
    private const double Before = 240.0;
    private const double After = 60.0;

    private readonly SkyPoint[] _points;
    private SkyPoint[]? _aims;
    private SunAvoidance? _avoids;
    private DateTimeOffset _zero;

    private SkyTable(double from, double aos, double los, SkyPoint[] points)
    {
        (From, Aos, Los) = (from, aos, los);
        _points = points;
    }

    /// <summary>Time of the first sample, s since the zero of the table.</summary>
    public double From { get; }

    /// <summary>Time of the last sample, s.</summary>
    public double To => From + ((_points.Length - 1) * Step);

    /// <summary>Begin of the pass, s.</summary>
    public double Aos { get; }

    /// <summary>End of the pass, s.</summary>
    public double Los { get; }

    /// <summary>Samples a pass and four minutes before it.</summary>
    /// <param name="track">The satellite over the station.</param>
    /// <param name="zero">Zero of the table's time, UTC.</param>
    /// <param name="aos">Begin of the pass, s.</param>
    /// <param name="los">End of the pass, s.</param>
    /// <param name="budget">Margin by the full link budget, dB, of a well-pointed dish.</param>
    public static SkyTable Of(ITrack track, DateTimeOffset zero, double aos, double los, Func<LookAngles, double> budget)
    {
        double from = aos - Before;
        double to = los + After;
        ArgumentNullException.ThrowIfNull(track);
        ArgumentNullException.ThrowIfNull(budget);
        var points = new SkyPoint[Math.Max(2, (int)Math.Ceiling((to - from) / Step) + 1)];
        double lastAzimuth = 0.0;
        for (int i = 0; i < points.Length; i++)
        {
            if (track.At(zero.AddSeconds(from + (i * Step))) is { } look)
            {
                points[i] = PointOf(look, budget(look));
                lastAzimuth = points[i].Azimuth;
            }
            else
            {
                points[i] = new SkyPoint(Vector.Of(lastAzimuth, -30.0), lastAzimuth, -30.0, 0.0, 0.0, 0.4);
            }
        }

        return new SkyTable(from, aos, los, points);
    }

    /// <summary>The satellite at a time; the first or last sample outside the table.</summary>
    /// <param name="seconds">Seconds since the zero of the table.</param>
    public SkyPoint At(double seconds) => Between(_points, seconds);

    private SkyPoint Between(SkyPoint[] points, double seconds)
    {
        double place = (seconds - From) / Step;
        int before = Math.Clamp((int)Math.Floor(place), 0, points.Length - 2);
        double share = Math.Clamp(place - before, 0.0, 1.0);
        ref readonly SkyPoint a = ref points[before];
        ref readonly SkyPoint b = ref points[before + 1];
        double turn = b.Azimuth - a.Azimuth;
        turn -= 360.0 * Math.Round(turn / 360.0);
        double azimuth = a.Azimuth + (share * turn);
        return new SkyPoint(
            a.Direction.Towards(b.Direction, share),
            azimuth < 0.0 ? azimuth + 360.0 : azimuth >= 360.0 ? azimuth - 360.0 : azimuth,
            a.Elevation + (share * (b.Elevation - a.Elevation)),
            a.MarginDb + (share * (b.MarginDb - a.MarginDb)),
            a.Steepness + (share * (b.Steepness - a.Steepness)),
            a.FadingDb + (share * (b.FadingDb - a.FadingDb)));
    }

    /// <summary>The same table for a dish that keeps off the sun.</summary>
    /// <param name="avoids">What keeps it off.</param>
    /// <param name="zero">Zero of the table's time, UTC.</param>
    /// <param name="around">The way that the dish is to follow, every <see cref="Step"/> from the begin of the pass on.</param>
    public SkyTable Avoiding(SunAvoidance avoids, DateTimeOffset zero, ImmutableArray<PassMoment> around)
    {
        var aims = new SkyPoint[_points.Length];
        for (int i = 0; i < aims.Length; i++)
        {
            double seconds = From + (i * Step);
            int at = (int)Math.Round((seconds - Aos) / Step);

            // Before the pass the dish waits where it begins, should that not be where the satellite rises.
            LookAngles look = around[Math.Clamp(at, 0, around.Length - 1)].Look;
            Vector there = Vector.Of(look.Azimuth.Degrees, look.Elevation.Degrees);
            bool within = seconds >= Aos && seconds <= Los;
            bool aside = (within || seconds < Aos) && there.SquareTo(At(Math.Clamp(seconds, Aos, Los)).Direction) > Aside;
            aims[i] = aside ? _points[i] with { Direction = there, Azimuth = look.Azimuth.Degrees, Elevation = look.Elevation.Degrees } : _points[i];
        }

        return new SkyTable(From, Aos, Los, _points) { _aims = aims, _avoids = avoids, _zero = zero };
    }

    /// <summary>Where the dish is to point for a satellite at a time: at it, or around the sun.</summary>
    /// <param name="seconds">Seconds since the zero of the table.</param>
    public SkyPoint AimAt(double seconds) => Between(_aims ?? _points, seconds);

    /// <summary>Whether the sun is in the way at a time: of the satellite, or of the turn to it.</summary>
    /// <param name="seconds">Seconds since the zero of the table.</param>
    /// <param name="azimuth">Where the dish is, degrees.</param>
    /// <param name="elevation">Its elevation, degrees.</param>
    public bool SunLeads(double seconds, double azimuth, double elevation)
    {
        if (_aims is null)
        {
            return false;
        }

        SkyPoint aim = AimAt(seconds);
        return aim.Direction.SquareTo(At(seconds).Direction) > Aside || SunBlocks(seconds, azimuth, elevation, aim.Azimuth, aim.Elevation);
    }

    /// <summary>Whether a turn at a time would come within a beam width of the sun; degrees.</summary>
    public bool SunBlocks(double seconds, double azimuth, double elevation, double toAzimuth, double toElevation) =>
        _avoids is { } avoids && avoids.Blocks(_zero.AddSeconds(seconds), PlaceOf(azimuth, elevation), PlaceOf(toAzimuth, toElevation));

    /// <summary>Where to turn first on the way to a direction, so that the sun is passed by; degrees.</summary>
    public (double Azimuth, double Elevation) Via(double seconds, double azimuth, double elevation, double toAzimuth, double toElevation)
    {
        if (_avoids is not { } avoids)
        {
            return (toAzimuth, toElevation);
        }

        SkyPlace via = avoids.Via(_zero.AddSeconds(seconds), PlaceOf(azimuth, elevation), PlaceOf(toAzimuth, toElevation));
        return (via.Azimuth.Degrees, via.Elevation.Degrees);
    }

    private static SkyPlace PlaceOf(double azimuth, double elevation) => new(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation));

    private static SkyPoint PointOf(LookAngles look, double budgetDb)
    {
        double elevation = look.Elevation.Degrees;
        double flatter = Flatter(Math.Max(0.0, elevation));
        return new SkyPoint(
            Vector.Of(look.Azimuth.Degrees, elevation),
            look.Azimuth.Degrees,
            elevation,
            budgetDb + flatter,
            flatter,
            0.4 + (0.8 * Math.Exp(-(Math.Max(0.0, elevation) - 5.0) / 10.0)));
    }

    /// <summary>Half of the difference between the full budget and three quarters of free space, about zero at 30 degrees, dB.</summary>
    /// <remarks>A curve within 0.2 dB of where the two laws lie for a low orbit (1.8, 0.8 and -0.1 dB at 5, 10 and 60 degrees).</remarks>
    private static double Flatter(double elevation) => (3.5 * Math.Exp(-elevation / 7.2)) - 0.06;
}
