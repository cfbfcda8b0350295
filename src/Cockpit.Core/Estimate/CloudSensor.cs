using Cockpit.Core.Sensing;

namespace Cockpit.Core.Estimate;

/// <summary>What a sensor on the dish does to the hypotheses: those that follow it move as it says; how far it is off is what is left between it and them.</summary>
/// <remarks>
/// So the level weighs the errors of the sensor over the whole pass, and nothing is counted twice: A, the error of its azimuth, and V, that of its height,
/// are where the hypothesis stands under the reading; R, by which it sits askew, is drawn, and turns into azimuth as the dish rises. A walks. Some hypotheses
/// do not follow it, but the hand as without: should it slip or swing, theirs is the weight.
/// </remarks>
internal sealed partial class ParticleCloud
{
    private const double AloneShare = 0.03;
    private const double LeavesRate = 0.008;
    private const double ReturnsRate = 0.25;
    private const double PriorAzimuth = 15.0;
    private const double PriorRight = 4.0;
    private const double PriorUp = 3.0;
    private const double AzimuthWalk = 0.1;
    private const double DisturbedWalk = 0.5;
    private const double UpWalk = 0.03;
    private const double FarPrior = 0.03;
    private const double BackShare = 0.85;
    private const double LeastLevel = 0.08;
    private const double MovedDegrees = 1.0;
    private const double MovedShareOfCall = 0.6;
    private const double SeenAfter = 2.0;
    private const double FollowerRoughening = 0.1;
    private const double RightRoughening = 0.2;
    private const double KernelShare = 0.2;

    /// <summary>
    /// Where a sensor tells every move, what the level does between moves says least: the law that it follows is not known so well, above all near the
    /// horizon. So the gain may wander more, dB^2 a second, and the more the more it fades.
    /// </summary>
    private const double SensorGainWalk = 0.03;

    private const double LowGainWalk = 0.03;

    private SensorStep _step;
    private double _calledSize;
    private double _gonePan;
    private double _goneTilt;

    /// <summary>Share of the weight that follows the sensor.</summary>
    public double FollowShare()
    {
        double share = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            share += _now[i].Follows ? _now[i].Weight : 0.0;
        }

        return share;
    }

    /// <summary>The sensor is there: hypotheses begin to follow it.</summary>
    /// <param name="azimuth">What it says; null where it tells none.</param>
    /// <param name="elevation">What it says; null where it tells none.</param>
    /// <param name="bias">What is known of its errors.</param>
    /// <param name="sharp">It was seen in a known direction: that says where the dish is better than the compass.</param>
    /// <param name="arbitrary">Its azimuth is counted from anywhere.</param>
    public void Attach(double? azimuth, double? elevation, SensorBias bias, bool sharp, bool arbitrary)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            p.Follows = _chance.NextUnit() >= AloneShare;
            (double a, double right, double up) = bias.Drawn(_chance.NextNormal(), _chance.NextNormal(), _chance.NextNormal());
            p.Right = sharp ? right : PriorRight * _chance.NextNormal();
            if (sharp && p.Follows)
            {
                p.Elevation = elevation is { } high ? Math.Clamp(high - up, -10.0, 92.0) : p.Elevation;
                p.Azimuth = azimuth is { } read ? read - a - (p.Right / Level(p.Elevation)) : p.Azimuth;
                p.Point();
                continue;
            }

            if (azimuth is { } told && !arbitrary)
            {
                double off = told - p.Azimuth - (p.Right / Level(p.Elevation));
                p.Weight *= Prior((off - (360.0 * Math.Round(off / 360.0))) / PriorAzimuth);
            }

            p.Weight *= elevation is { } said ? Prior((said - p.Elevation) / PriorUp) : 1.0;
        }

        Settle();
    }

    /// <summary>The sensor fell asleep, or fell off: what is believed of its errors is kept, the dish moves as without it.</summary>
    public void Detach(double azimuth, double elevation)
    {
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            p.SensorAzimuth = azimuth - p.Azimuth - (p.Right / Level(p.Elevation));
            p.SensorElevation = elevation - p.Elevation;
        }

        _step = default;
    }

    /// <summary>It is back: most hypotheses stand where it says with the errors it had.</summary>
    /// <param name="azimuth">What it says; NaN where it never told it.</param>
    /// <param name="elevation">The same.</param>
    /// <param name="slept">For how long it was away, s.</param>
    public void Back(double azimuth, double elevation, double slept)
    {
        _mean = null;
        double walk = AzimuthWalk * Math.Sqrt(slept);
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double drawn = _chance.NextNormal();
            bool same = _chance.NextUnit() < BackShare;
            if (same && p.Follows)
            {
                p.Elevation = double.IsNaN(elevation) ? p.Elevation : Math.Clamp(elevation - p.SensorElevation, -10.0, 92.0);
                p.Azimuth = double.IsNaN(azimuth) ? p.Azimuth : azimuth - p.SensorAzimuth - (p.Right / Level(p.Elevation)) + (walk * drawn);
                p.Pending = double.IsNaN(azimuth) ? p.Pending : Pending.None;
                p.Point();
            }

            p.Follows |= !same;
        }
    }

    /// <summary>What the sensor moved in the block that is about to be waited through; default: it tells nothing.</summary>
    public void Sense(in SensorStep step)
    {
        _step = step;
        _gonePan += step.Azimuth;
        _goneTilt += step.Elevation;
    }

    /// <summary>The dish was pointed in a known direction.</summary>
    public void Seen(double azimuth, double? elevation, double spread)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double right = (azimuth - p.Azimuth - (360.0 * Math.Round((azimuth - p.Azimuth) / 360.0))) * HeadMotion.PanShare(p.Elevation);
            double up = (elevation ?? p.Elevation) - p.Elevation;
            p.Weight *= FarPrior + Math.Exp(-0.5 * ((right * right) + (up * up)) / (spread * spread));
        }

        Settle();
        Resample();
        for (int i = 0; i < _now.Length; i++)
        {
            // Who says so sees it; a tenth doubts that.
            if (i % 10 == 0)
            {
                continue;
            }

            ref Particle p = ref _now[i];
            double high = elevation ?? p.Elevation;
            p.Azimuth = azimuth + (spread * _chance.NextNormal() / HeadMotion.PanShare(high));
            p.Elevation = Math.Clamp(high + (elevation is null ? 0.0 : spread * _chance.NextNormal()), -10.0, 90.0);
            p.Pending = Pending.None;
            p.Point();
        }
    }

    /// <summary>A hypothesis that follows the sensor, for one block.</summary>
    private void Follow(ref Particle p, double now, double seconds)
    {
        double level = Level(p.Elevation);
        double root = Math.Sqrt(seconds);
        if (_step.HasElevation)
        {
            p.Elevation = Math.Clamp(p.Elevation + _step.Elevation + (UpWalk * root * _chance.NextNormal()), -10.0, 92.0);
        }

        if (_step.HasAzimuth)
        {
            double walk = _step.Disturbed ? DisturbedWalk : AzimuthWalk;
            p.Azimuth += _step.Azimuth - (p.Right * ((1.0 / Level(p.Elevation)) - (1.0 / level))) + (walk * root * _chance.NextNormal());
        }

        bool moves = Math.Abs(_step.Elevation) + (Math.Abs(_step.Azimuth) * level) > MovedDegrees;
        p.MovingUntil = moves ? now + LaterSpread : p.MovingUntil;
    }

    /// <summary>How hypotheses that follow a sensor are spread when they are drawn anew: along the region that they fill, by a share of its size.</summary>
    /// <remarks>
    /// What a hypothesis takes for the error of the sensor hardly changes by itself, so few of them would soon be copies of one (C. Musso, N. Oudjane,
    /// F. Le Gland, "Improving Regularised Particle Filters", 2001; the share is chosen here).
    /// </remarks>
    private Kernel KernelOf()
    {
        (double azimuth, double elevation) = Mean();
        double share = HeadMotion.PanShare(elevation);
        (double rr, double ru, double uu) = (0.0, 0.0, 0.0);
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double turn = p.Azimuth - azimuth;
            double right = (turn - (360.0 * Math.Round(turn / 360.0))) * share;
            double up = p.Elevation - elevation;
            rr += p.Weight * right * right;
            ru += p.Weight * right * up;
            uu += p.Weight * up * up;
        }

        // The lower triangle of a root of the covariance.
        double a = Math.Sqrt(rr) + 1e-9;
        return new Kernel(KernelShare * a, KernelShare * ru / a, KernelShare * Math.Sqrt(Math.Max(0.0, uu - (ru * ru / (a * a)))));
    }

    private void Roughen(ref Particle p, in Kernel kernel)
    {
        (double first, double second) = (_chance.NextNormal(), _chance.NextNormal());
        double right = (kernel.Right * first) + (FollowerRoughening * _chance.NextNormal());
        double up = (kernel.Both * first) + (kernel.Up * second) + (FollowerRoughening * _chance.NextNormal());
        p.Azimuth += right / HeadMotion.PanShare(p.Elevation);
        p.Elevation = Math.Clamp(p.Elevation + up, -10.0, 92.0);
        p.Right += RightRoughening * _chance.NextNormal();
    }

    private readonly record struct Kernel(double Right, double Both, double Up);

    /// <summary>Now and then a sensor slips, or sits fast again.</summary>
    private void Change(ref Particle p, double seconds)
    {
        double rate = p.Follows ? LeavesRate * (_step.Disturbed ? 4.0 : 1.0) : ReturnsRate;
        p.Follows ^= _chance.NextUnit() < rate * seconds;
    }

    /// <summary>Whether the sensor alone tells what a hypothesis did about a call.</summary>
    private bool IsSeen(in Particle p) => p.Follows && _step is { HasAzimuth: true, HasElevation: true };

    /// <summary>Whether the call is over for a hypothesis whose moves are seen: made, or it should have been made long ago.</summary>
    private bool IsOver(ref Particle p, double now)
    {
        bool gone = Gone(Level(p.Elevation)) > MovedShareOfCall * _calledSize;
        p.Lapsed = !gone;
        return gone || now > p.PendingAt + SeenAfter;
    }

    private double Gone(double level) => Math.Sqrt((_gonePan * _gonePan * level * level) + (_goneTilt * _goneTilt));

    private static double Level(double elevation) => Math.Max(LeastLevel, Math.Cos(elevation * (Math.PI / 180.0)));

    private static double Prior(double z) => FarPrior + Math.Exp(-0.5 * z * z);
}

/// <summary>How a sensor moved in one block; degrees.</summary>
/// <param name="HasAzimuth">It tells its azimuth.</param>
/// <param name="HasElevation">It tells its elevation.</param>
/// <param name="Azimuth">By how much its azimuth moved.</param>
/// <param name="Elevation">By how much its elevation moved.</param>
/// <param name="Disturbed">Its azimuth jumped of late.</param>
internal readonly record struct SensorStep(bool HasAzimuth, bool HasElevation, double Azimuth, double Elevation, bool Disturbed)
{
    /// <summary>Whether it tells anything.</summary>
    public bool IsThere => HasAzimuth || HasElevation;
}
