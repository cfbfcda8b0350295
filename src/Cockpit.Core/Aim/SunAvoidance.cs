using System.Collections.Immutable;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>Keeps the axis of a dish more than a beam width from the sun, for a whole pass: around it by the side on which the satellite goes. Pure.</summary>
/// <remarks>
/// Within a beam width of the sun a dish warms its feed and receives more of the sun's noise than it can use; the width as the limit is
/// common practice, no source. Going around at <see cref="Margin"/> beam widths keeps as much of a pass as waiting on either side, whose
/// turn would have to lead through the sun, and leaves room for the chords that a hand turns and for its errors.
/// </remarks>
public sealed class SunAvoidance
{
    /// <summary>How far from the sun the way around leads, beam widths.</summary>
    public const double Margin = 1.2;

    private const int PathSamples = 12;
    private const double LargestArc = Math.PI / 4.0;
    private static readonly Angle Lowest = Angle.FromDegrees(2.0);
    private static readonly double[] Farther = [Margin, 1.3, 1.5, 1.8];
    private readonly Func<DateTimeOffset, SkyPlace?> _sun;

    /// <param name="sun">Where the sun is at an instant, UTC; null while it is down.</param>
    /// <param name="beamWidth">Half-power beamwidth of the dish, below 60°.</param>
    public SunAvoidance(Func<DateTimeOffset, SkyPlace?> sun, Angle beamWidth)
    {
        ArgumentNullException.ThrowIfNull(sun);
        _sun = sun;
        BeamWidth = beamWidth;
    }

    /// <summary>The axis stays farther from the sun than this.</summary>
    public Angle BeamWidth { get; }

    /// <summary>How far a direction is from the sun; null while it is down.</summary>
    public Angle? Separation(DateTimeOffset utc, Angle azimuth, Angle elevation) => _sun(utc) is { } sun
        ? AimErrors.Separation(sun.Azimuth, sun.Elevation, azimuth, elevation)
        : null;

    /// <summary>The least separation of one direction in a span; null while the sun is down.</summary>
    public Angle? Nearest(DateTimeOffset from, DateTimeOffset to, Angle azimuth, Angle elevation)
    {
        Angle? least = null;
        for (int i = 0; i <= 4; i++)
        {
            Angle? apart = Separation(from + (i / 4.0 * (to - from)), azimuth, elevation);
            least = apart < (least ?? Angle.FromRadians(Math.PI)) ? apart : least;
        }

        return least;
    }

    /// <summary>Whether a turn comes too near: both axes of the head at once, or straight over the sky.</summary>
    /// <param name="utc">When, UTC.</param>
    /// <param name="from">The direction before.</param>
    /// <param name="to">The direction after it.</param>
    public bool Blocks(DateTimeOffset utc, SkyPlace from, SkyPlace to)
    {
        if (_sun(utc) is not { } sun)
        {
            return false;
        }

        AimError turn = AimErrors.Between(from.Azimuth, from.Elevation, to.Azimuth, to.Elevation);
        for (int i = 0; i <= PathSamples; i++)
        {
            double share = (double)i / PathSamples;
            (Angle azimuth, Angle elevation) = AimErrors.Moved(from.Azimuth, from.Elevation, share * turn.Right, share * turn.Up);
            if (AimErrors.Separation(sun.Azimuth, sun.Elevation, azimuth, elevation) <= BeamWidth
                || AimErrors.Separation(sun.Azimuth, sun.Elevation, from.Azimuth + (share * turn.Pan), from.Elevation + (share * turn.Tilt)) <= BeamWidth)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Where to turn first so that the way to a target leads around the sun: the target itself where nothing is in the way.</summary>
    public SkyPlace Via(DateTimeOffset utc, SkyPlace from, SkyPlace to)
    {
        if (_sun(utc) is not { } sun || !Blocks(utc, from, to))
        {
            return to;
        }

        (double apart, double side) = Polar(sun, from);
        (double end, double target) = Polar(sun, to);
        double turn = Math.Clamp(Wrapped(target - side), -LargestArc, LargestArc);
        bool tooNear = apart <= BeamWidth.Radians;
        bool near = Math.Abs(turn) < LargestArc && end > BeamWidth.Radians && !tooNear;
        return near ? to : Place(sun, Margin * BeamWidth.Radians, tooNear ? side : side + turn);
    }

    /// <summary>The pass as the dish is to follow it: the satellite, and around the sun where that is in the way.</summary>
    /// <param name="path">The pass, evenly sampled.</param>
    /// <returns>As many moments; ranges are the satellite's.</returns>
    public ImmutableArray<PassMoment> Around(ImmutableArray<PassMoment> path)
    {
        double keep = Margin * BeamWidth.Radians;
        PassMoment[] around = [.. path];
        int at = 0;
        while (at < around.Length)
        {
            if (!IsNear(path[at], keep))
            {
                at++;
                continue;
            }

            int end = at;
            while (end + 1 < path.Length && IsNear(path[end + 1], keep))
            {
                end++;
            }

            Lead(path, around, at, end, keep);
            at = end + 1;
        }

        return [.. around];
    }

    /// <summary>The plan with what the sun forbids marked, and where the dish stands instead.</summary>
    /// <param name="holds">The plan of the pass.</param>
    /// <param name="path">The pass, evenly sampled.</param>
    /// <param name="beam">The dish.</param>
    public ImmutableArray<Hold> Apply(ImmutableArray<Hold> holds, ImmutableArray<PassMoment> path, Beam beam)
    {
        ImmutableArray<PassMoment> around = Around(path);
        Hold[] plan = [.. holds];
        double[] distance = [.. holds.Select(_ => 0.0)];
        for (int i = 0; i < plan.Length; i++)
        {
            if (Nearest(plan[i].FromUtc, plan[i].ToUtc, plan[i].Azimuth, plan[i].Elevation) <= BeamWidth)
            {
                plan[i] = Skipped(plan[i], Farther[0], path, around, beam);
                distance[i] = Farther[0];
            }
        }

        // A chord between two holds that are clear may still cut the corner: then both stand farther out.
        foreach (double farther in Farther)
        {
            for (int i = 0; i + 1 < plan.Length; i++)
            {
                if (Blocks(plan[i + 1].FromUtc, plan[i].Flown(), plan[i + 1].Flown()))
                {
                    foreach (int k in new[] { i, i + 1 })
                    {
                        if (distance[k] < farther && IsNearly(plan[k], farther))
                        {
                            plan[k] = Skipped(holds[k], farther, path, around, beam);
                            distance[k] = farther;
                        }
                    }
                }
            }
        }

        return [.. plan];
    }

    private bool IsNearly(Hold hold, double widths) => Nearest(hold.FromUtc, hold.ToUtc, hold.Flown().Azimuth, hold.Flown().Elevation) < widths * BeamWidth;

    private bool IsNear(PassMoment moment, double keep) => Separation(moment.Utc, moment.Look.Azimuth, moment.Look.Elevation)?.Radians < keep;

    private Hold Skipped(Hold hold, double widths, ImmutableArray<PassMoment> path, ImmutableArray<PassMoment> around, Beam beam)
    {
        DateTimeOffset middle = hold.FromUtc + ((hold.ToUtc - hold.FromUtc) / 2.0);
        PassMoment moment = around.MinBy(each => (each.Utc - middle).Duration());
        SkyPlace stand = new(moment.Look.Azimuth, moment.Look.Elevation);
        if (_sun(middle) is { } sun)
        {
            (double apart, double side) = Polar(sun, stand);
            double outward = Math.Max(apart, widths * BeamWidth.Radians);
            stand = Place(sun, outward, side);
        }

        double worst = 0.0;
        foreach (PassMoment each in path)
        {
            if (each.Utc >= hold.FromUtc && each.Utc <= hold.ToUtc)
            {
                worst = Math.Max(worst, beam.LossAt(AimErrors.Separation(stand.Azimuth, stand.Elevation, each.Look.Azimuth, each.Look.Elevation)).Value);
            }
        }

        Angle nearest = Nearest(hold.FromUtc, hold.ToUtc, hold.Azimuth, hold.Elevation) ?? Angle.Zero;
        return hold with { Skip = new SunSkip(nearest, stand.Azimuth, stand.Elevation, new Decibels(worst)) };
    }

    /// <summary>Leads one stretch of the path around, evenly in time.</summary>
    private void Lead(ImmutableArray<PassMoment> path, PassMoment[] around, int from, int to, double keep)
    {
        double[] sides = new double[to - from + 1];
        int farthest = from;
        double most = -1.0;
        for (int i = from; i <= to; i++)
        {
            (double apart, double side) = Polar(SunAt(path[i].Utc), Of(path[i]));
            sides[i - from] = i == from ? side : sides[i - from - 1] + Wrapped(side - sides[i - from - 1]);
            (most, farthest) = apart > most ? (apart, i) : (most, farthest);
        }

        (double begin, double turn) = (from == 0, to == path.Length - 1) switch
        {
            (true, true) => (sides[farthest - from], 0.0),
            (true, false) => (sides[^1], 0.0),
            (false, true) => (sides[0], 0.0),
            _ => (sides[0], sides[^1] - sides[0]),
        };
        double other = turn - (Math.CopySign(2.0 * Math.PI, turn));
        if (turn != 0.0 && LowestOf(path, from, to, keep, begin, turn) is var low && low < Lowest && LowestOf(path, from, to, keep, begin, other) > low)
        {
            turn = other;
        }
        else if (turn == 0.0 && LowestOf(path, from, to, keep, begin, 0.0) < Angle.Zero)
        {
            begin = 0.0; // above the sun
        }

        for (int i = from; i <= to; i++)
        {
            SkyPlace place = Place(SunAt(path[i].Utc), keep, begin + (Share(i, from, to) * turn));
            around[i] = path[i] with { Look = path[i].Look with { Azimuth = place.Azimuth, Elevation = place.Elevation } };
        }
    }

    private Angle LowestOf(ImmutableArray<PassMoment> path, int from, int to, double keep, double begin, double turn)
    {
        Angle low = Angle.FromRadians(Math.PI);
        for (int i = from; i <= to; i++)
        {
            Angle elevation = Place(SunAt(path[i].Utc), keep, begin + (Share(i, from, to) * turn)).Elevation;
            low = elevation < low ? elevation : low;
        }

        return low;
    }

    private SkyPlace SunAt(DateTimeOffset utc) => _sun(utc).GetValueOrDefault();

    private static double Share(int i, int from, int to) => to == from ? 0.0 : (double)(i - from) / (to - from);

    private static SkyPlace Of(PassMoment moment) => new(moment.Look.Azimuth, moment.Look.Elevation);

    /// <summary>Distance from the sun and the side of it, from "up" towards "right"; radians.</summary>
    private static (double Apart, double Side) Polar(SkyPlace sun, SkyPlace place)
    {
        AimError off = AimErrors.Between(sun.Azimuth, sun.Elevation, place.Azimuth, place.Elevation);
        return (off.Total.Radians, Math.Atan2(off.Right.Radians, off.Up.Radians));
    }

    private static SkyPlace Place(SkyPlace sun, double apart, double side)
    {
        (double sin, double cos) = Math.SinCos(side);
        (Angle azimuth, Angle elevation) = AimErrors.Moved(sun.Azimuth, sun.Elevation, Angle.FromRadians(apart * sin), Angle.FromRadians(apart * cos));
        return new SkyPlace(azimuth, elevation);
    }

    private static double Wrapped(double radians) => Angle.FromRadians(radians).WrappedToHalfTurn().Radians;
}
