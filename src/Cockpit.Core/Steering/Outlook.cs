using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Looks ahead for the moment at which staying will lose more than a move costs. Seconds, degrees.</summary>
/// <remarks>Allocates only when made.</remarks>
internal sealed class Outlook
{
    private const int Some = 24;
    private const int Farthest = 150;
    private const double TargetAhead = 22.0;

    private readonly DishEstimate _estimate;
    private readonly SteeringCost _cost;
    private readonly Particle[] _some = new Particle[Some];
    private LinkDoubt _doubt;
    private readonly double[] _lost = new double[Farthest + 1];

    public Outlook(DishEstimate estimate, SteeringCost cost)
    {
        _estimate = estimate;
        _cost = cost;
    }

    /// <summary>The next move; null when none is needed before the end of the pass.</summary>
    /// <param name="now">Seconds.</param>
    /// <param name="lead">From a call to the middle of its move, s.</param>
    public double? NextAt(double now, double lead)
    {
        _estimate.Cloud.Pick(_some);
        _doubt = LinkDoubt.Of(_estimate);
        for (int j = 0; j <= Farthest; j++)
        {
            _lost[j] = LostAt(now + lead + j);
        }

        double window = 0.0;
        int span = (int)_cost.StayAhead;
        for (int j = 0; j < span; j++)
        {
            window += _lost[j];
        }

        double end = _estimate.Sky.Los;
        for (int j = 0; j + span <= Farthest; j++)
        {
            if (now + j >= end)
            {
                return null;
            }

            if (window > _cost.Move && Saved(now + j, lead, window) > 0.0)
            {
                return now + j;
            }

            window += _lost[j + span] - _lost[j];
        }

        return null;
    }

    /// <summary>What the best move at a time then saves over its cost, lines; the errors of the hand widen the beam's edge.</summary>
    private double Saved(double at, double lead, double staying)
    {
        const double BySquareDegree = Math.PI * Math.PI / (180.0 * 180.0);
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        Vector mean = Vector.Of(azimuth, elevation);
        HandModel hand = _estimate.Start.Hand;
        double share = (hand.SizeError * hand.SizeError) + (BySquareDegree * hand.DirectionErrorDegrees * hand.DirectionErrorDegrees);
        double least = double.PositiveInfinity;
        foreach (double ahead in _cost.TrackPoints)
        {
            SkyPoint point = _estimate.Sky.AimAt(at + lead + ahead);
            double error = (2.0 * hand.FloorErrorDegrees * hand.FloorErrorDegrees) + (share * point.Direction.SquareTo(mean));
            least = Math.Min(least, LostAround(point, mean, error, at + lead, _cost.StayAhead));
        }

        return staying - least - _cost.Move;
    }

    /// <summary>The point of the track that a move at a time leads to: the one that keeps the satellite longest.</summary>
    public SkyPoint TargetAt(double at, double lead)
    {
        SkyPoint best = _estimate.Sky.AimAt(at + lead);
        double least = double.PositiveInfinity;
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        Vector mean = Vector.Of(azimuth, elevation);
        foreach (double ahead in _cost.TrackPoints)
        {
            SkyPoint point = _estimate.Sky.AimAt(at + lead + ahead);
            double lost = LostAround(point, mean, 0.0, at + lead, TargetAhead);
            if (lost < least)
            {
                (least, best) = (lost, point);
            }
        }

        return best;
    }

    private double LostAt(double seconds)
    {
        if (seconds < _estimate.Sky.Aos || seconds > _estimate.Sky.Los)
        {
            return 0.0;
        }

        SkyPoint sky = _estimate.Sky.At(seconds);
        double sd = _doubt.Sd(sky);
        double sum = 0.0;
        for (int i = 0; i < Some; i++)
        {
            sum += LostBy(_some[i], sky, _some[i].Direction.SquareTo(sky.Direction), sd);
        }

        return sum * (MoveChooser.LinesPerSecond / Some);
    }

    /// <summary>Lines lost in some seconds by a cloud that is as wide as now about a point, and wider by an error.</summary>
    private double LostAround(in SkyPoint point, in Vector mean, double errorSquare, double from, double seconds)
    {
        const double Apart = 2.0;
        const int Each = 3;
        Span<double> about = stackalloc double[Some / Each];
        for (int i = 0; i < about.Length; i++)
        {
            about[i] = _some[i * Each].Direction.SquareTo(mean);
        }

        double sum = 0.0;
        for (double j = 0.5 * Apart; j < seconds; j += Apart)
        {
            SkyPoint sky = _estimate.Sky.At(from + j);
            double sd = _doubt.Sd(sky);
            double apart = point.Direction.SquareTo(sky.Direction) + errorSquare;
            for (int i = 0; i < about.Length; i++)
            {
                sum += LostBy(_some[i * Each], sky, apart + about[i], sd);
            }
        }

        return sum * (MoveChooser.LinesPerSecond * Apart * Each / Some);
    }

    private double LostBy(in Particle p, in SkyPoint sky, double squareOff, double sd)
    {
        double margin = sky.MarginDb + p.G + (sky.Steepness * p.S) - _estimate.ThresholdDb
            - Math.Min(p.BeamSquare * squareOff, LevelModel.SideLobesDb);
        return Normal.Below(-margin / sd);
    }
}
