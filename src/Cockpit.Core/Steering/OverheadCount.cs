using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Counts the picture lines that a way past the top is expected to lose. Seconds, degrees, dB.</summary>
/// <remarks>
/// Before and after it the dish follows with the errors that any move has. The turn goes at an even rate, as fast as the hand turns
/// the pan; its pan misses by the hand's error of size (three points of the normal distribution), its tilt by the same share, until
/// the miss has been heard and made up for. Calls that are not followed or followed the wrong way are left out: they cost every way
/// alike. The level is that of the guidance before it has heard anything: by its law, and as uncertain as that is.
/// </remarks>
/// <param name="sky">The pass.</param>
/// <param name="hand">Whose hand.</param>
/// <param name="beamWidth">Half-power width of the beam, degrees.</param>
/// <param name="from">Begin of the count, s.</param>
/// <param name="to">Its end, s.</param>
internal sealed class OverheadCount(SkyTable sky, HandModel hand, double beamWidth, double from, double to)
{
    private const double Step = 0.5;
    private const double ListenSeconds = 1.3;

    /// <summary>What is not known before the pass: the gain of the link and the threshold of the picture, and the noise of a reading, dB^2.</summary>
    private const double Unknown = (LevelModel.GainSd * LevelModel.GainSd) + (LevelModel.ThresholdSd * LevelModel.ThresholdSd) + 0.25;

    /// <summary>Gauss-Hermite, three points: exact for a polynomial of the fifth degree.</summary>
    private static readonly (double At, double Weight)[] Errors = [(-1.7320508075688772, 1.0 / 6.0), (0.0, 2.0 / 3.0), (1.7320508075688772, 1.0 / 6.0)];

    private readonly double?[] _followed = new double?[(int)Math.Ceiling((to - from) / Step)];
    private readonly double _any = 2.0 * hand.FloorErrorDegrees * hand.FloorErrorDegrees;

    /// <summary>A way with its amounts and its lines.</summary>
    public OverheadCost Of(OverheadPlan plan)
    {
        Motion motion = MotionOf(plan);
        double lost = 0.0;
        for (int i = 0; i < _followed.Length; i++)
        {
            double t = from + ((i + 0.5) * Step);
            lost += t < plan.StandsFrom || t >= motion.MadeUp ? Followed(i, t) : At(plan, motion, t);
        }

        double tilt = plan.Way == OverheadWay.OverTheTop ? motion.ToTilt - Along(plan.Azimuth, plan.StandsFrom) : motion.Tilt;
        return new OverheadCost(plan, motion.Pan, tilt, lost * MoveChooser.LinesPerSecond * Step);
    }

    /// <summary>Share of the lines lost at a time while the dish stands in a direction.</summary>
    public double Standing(double t, double azimuth, double elevation) => Share(t, Vector.Of(azimuth, elevation), _any);

    /// <summary>The same for every way, so counted once.</summary>
    private double Followed(int i, double t) => _followed[i] ??= Share(t, sky.At(t).Direction, _any);

    private double At(in OverheadPlan plan, in Motion motion, double t)
    {
        if (t < plan.TurnsAt)
        {
            return Standing(t, plan.Azimuth, plan.Way == OverheadWay.OverTheTop ? Along(plan.Azimuth, t) : plan.Elevation);
        }

        double done = Math.Min(1.0, (t - plan.TurnsAt) / motion.Seconds);
        double tilted = hand.SizeError * motion.Tilt * done;
        double sum = 0.0;
        foreach ((double at, double weight) in Errors)
        {
            double pan = motion.Pan * (1.0 + (at * hand.SizeError)) * done;
            sum += weight * Share(t, Vector.Of(plan.Azimuth + pan, motion.FromTilt + (motion.Tilt * done)), _any + (tilted * tilted));
        }

        return sum;
    }

    private Motion MotionOf(in OverheadPlan plan)
    {
        bool over = plan.Way == OverheadWay.OverTheTop;
        SkyPoint goal = sky.At(plan.Meets);
        double fromTilt = over ? Along(plan.Azimuth, plan.TurnsAt) : plan.Elevation;
        double toTilt = over ? 180.0 - goal.Elevation : goal.Elevation;
        double pan = goal.Azimuth + (over ? 180.0 : 0.0) - plan.Azimuth;
        pan -= 360.0 * Math.Round(pan / 360.0);
        double size = Math.Sqrt(Vector.Of(plan.Azimuth, fromTilt).SquareTo(goal.Direction));
        double seconds = hand.SecondsOf(pan, toTilt - fromTilt, size);
        double heard = plan.TurnsAt + seconds + ListenSeconds + hand.ReactionSeconds + hand.MoveSeconds;
        return new Motion(pan, fromTilt, toTilt, seconds, Math.Max(plan.Meets, heard));
    }

    /// <summary>The tilt that comes nearest to the satellite with the pan standing, 0 to 180 degrees.</summary>
    private double Along(double azimuth, double t)
    {
        Vector satellite = sky.At(t).Direction;
        (double sin, double cos) = Math.SinCos(azimuth * (Math.PI / 180.0));
        return Math.Atan2(satellite.Up, (satellite.East * sin) + (satellite.North * cos)) * (180.0 / Math.PI);
    }

    private double Share(double t, Vector dish, double errorSquare)
    {
        if (t < sky.Aos || t > sky.Los)
        {
            return 0.0;
        }

        SkyPoint point = sky.At(t);
        double off = Math.Min(12.0 / (beamWidth * beamWidth) * (dish.SquareTo(point.Direction) + errorSquare), LevelModel.SideLobesDb);
        return Normal.Below((off - point.MarginDb) / Math.Sqrt((point.FadingDb * point.FadingDb) + Unknown));
    }

    /// <param name="Pan">Turn of the pan.</param>
    /// <param name="FromTilt">The tilt before, up to 180 degrees.</param>
    /// <param name="ToTilt">The tilt afterwards.</param>
    /// <param name="Seconds">How long the turn takes.</param>
    /// <param name="MadeUp">When the dish follows again.</param>
    private readonly record struct Motion(double Pan, double FromTilt, double ToTilt, double Seconds, double MadeUp)
    {
        public double Tilt => ToTilt - FromTilt;
    }
}
