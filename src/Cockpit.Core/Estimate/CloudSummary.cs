namespace Cockpit.Core.Estimate;

/// <summary>Mean, region and odds of the hypotheses.</summary>
internal sealed partial class ParticleCloud
{
    private const double BinDegrees = 0.25;
    private readonly double[] _bins = new double[241];
    private (double Azimuth, double Elevation)? _mean; // until the hypotheses change

    /// <summary>The belief at a moment.</summary>
    public DishBelief Summary(double seconds, in SkyPoint sky, double thresholdDb)
    {
        (double azimuth, double elevation) = Mean();
        Vector middle = Vector.Of(azimuth, elevation);
        (double sinAzimuth, double cosAzimuth) = Math.SinCos(azimuth * (Math.PI / 180.0));
        (double sin, double cos) = Math.SinCos(elevation * (Math.PI / 180.0));
        Array.Clear(_bins);
        double rr = 0.0;
        double ru = 0.0;
        double uu = 0.0;
        double inBeam = 0.0;
        double loss = 0.0;
        double gain = 0.0;
        double blocked = 0.0;
        double moved = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double w = p.Weight;
            double off2 = p.Direction.SquareTo(middle);
            _bins[Math.Min(_bins.Length - 1, (int)(Math.Sqrt(off2) / BinDegrees))] += w;
            double right = ((p.Direction.East * cosAzimuth) - (p.Direction.North * sinAzimuth)) * (180.0 / Math.PI);
            double up = ((p.Direction.Up * cos) - (sin * ((p.Direction.East * sinAzimuth) + (p.Direction.North * cosAzimuth)))) * (180.0 / Math.PI);
            rr += w * right * right;
            ru += w * right * up;
            uu += w * up * up;
            double lost = p.BeamSquare * p.Direction.SquareTo(sky.Direction);
            inBeam += lost <= 3.0 ? w : 0.0;
            loss += w * Math.Min(lost, LevelModel.SideLobesDb);
            gain += w * (p.G + (sky.Steepness * p.S));
            blocked += p.Blocked > 0.0 ? w : 0.0;
            moved += p.Moved ? w : 0.0;
        }

        double half = 0.5 * (rr + uu);
        double apart = Math.Sqrt((0.25 * (rr - uu) * (rr - uu)) + (ru * ru));
        return new DishBelief(
            seconds,
            azimuth,
            elevation,
            Math.Sqrt(half + apart),
            Math.Sqrt(Math.Max(0.0, half - apart)),
            0.5 * Math.Atan2(2.0 * ru, rr - uu) * (180.0 / Math.PI),
            Within(0.5),
            Within(0.95),
            inBeam,
            loss,
            sky.MarginDb + gain,
            thresholdDb,
            blocked,
            moved);
    }

    /// <summary>Mean in the axes of the head.</summary>
    public (double Azimuth, double Elevation) Mean() => _mean ??= MeanOf();

    private (double Azimuth, double Elevation) MeanOf()
    {
        double sin = 0.0;
        double cos = 0.0;
        double elevation = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double outward = Math.Sqrt((p.Direction.East * p.Direction.East) + (p.Direction.North * p.Direction.North)) + 1e-12;
            sin += p.Weight * p.Direction.East / outward;
            cos += p.Weight * p.Direction.North / outward;
            elevation += p.Weight * p.Elevation;
        }

        double azimuth = Math.Atan2(sin, cos) * (180.0 / Math.PI);
        return (azimuth < 0.0 ? azimuth + 360.0 : azimuth, Math.Min(elevation, 90.0));
    }

    /// <summary>Mean variances of gain and steepness within the hypotheses.</summary>
    public (double Gain, double Both, double Steepness) LinkVariance()
    {
        double gain = 0.0;
        double both = 0.0;
        double steepness = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            gain += p.Weight * p.GG;
            both += p.Weight * p.GS;
            steepness += p.Weight * p.SS;
        }

        return (gain, both, steepness);
    }

    /// <summary>How long the hand is believed to need for a reading of the compass, s.</summary>
    public double ReadingSeconds()
    {
        double slow = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            slow += _now[i].ReadsAtOnce ? 0.0 : _now[i].Weight;
        }

        return slow * _hand.ReadingSeconds;
    }

    /// <summary>Picks hypotheses evenly by weight.</summary>
    public void Pick(Span<Particle> some)
    {
        double reached = _now[0].Weight;
        int from = 0;
        for (int i = 0; i < some.Length; i++)
        {
            double at = (i + 0.5) / some.Length;
            while (reached < at && from < _now.Length - 1)
            {
                reached += _now[++from].Weight;
            }

            some[i] = _now[from];
        }
    }

    /// <summary>Probability that the hand sets the dish by compass when that is asked for.</summary>
    public double Readers => _readers;

    private double ReaderShare()
    {
        double share = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            share += _now[i].ReadsCompass ? _now[i].Weight : 0.0;
        }

        return share;
    }

    /// <summary>The errors of compass and inclinometer that most of the weight is near to.</summary>
    /// <param name="width">What counts as near, degrees on the sky.</param>
    /// <param name="elevation">Where the next reading will be made.</param>
    public (double Compass, double Tilt) ProbableErrors(double width, double elevation)
    {
        const int Tried = 40;
        double share = HeadMotion.PanShare(elevation);
        double scale = 1.0 / (width * width);
        double best = -1.0;
        (double Compass, double Tilt) answer = (0.0, 0.0);
        double reached = _now[0].Weight;
        int from = 0;
        for (int k = 0; k < Tried; k++)
        {
            double at = (k + 0.5) / Tried;
            while (reached < at && from < _now.Length - 1)
            {
                reached += _now[++from].Weight;
            }

            double near = 0.0;
            for (int i = 0; i < _now.Length; i++)
            {
                double right = (_now[i].CompassError - _now[from].CompassError) * share;
                double up = _now[i].TiltError - _now[from].TiltError;
                near += _now[i].Weight * Math.Exp(-0.5 * scale * ((right * right) + (up * up)));
            }

            if (near > best)
            {
                best = near;
                answer = (_now[from].CompassError, _now[from].TiltError);
            }
        }

        return answer;
    }

    private double Within(double share)
    {
        double sum = 0.0;
        for (int i = 0; i < _bins.Length; i++)
        {
            if (sum + _bins[i] >= share)
            {
                return BinDegrees * (i + ((share - sum) / Math.Max(_bins[i], 1e-12)));
            }

            sum += _bins[i];
        }

        return BinDegrees * _bins.Length;
    }
}
