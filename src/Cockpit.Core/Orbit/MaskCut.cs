using Cockpit.Core.Geo;

namespace Cockpit.Core.Orbit;

/// <summary>Cuts a climb above a mask's lowest elevation into the spans above the mask itself.</summary>
/// <remarks>
/// Where the azimuth meets a point of the mask the limit has a kink; between kinks all is smooth. Each smooth piece is split
/// where its rate changes sign, so that a gap between two trees that is passed in a second is found too.
/// </remarks>
internal sealed class MaskCut(SkyPath path, HorizonMask mask, double step)
{
    private const double RateScale = 1000.0; // see ClimbSearch
    private const double LargestSwing = 0.3; // radians of azimuth in one step
    private const double ShortestStep = 0.01; // s

    private readonly double _highest = mask.Points.Max(p => p.Elevation.Radians);
    private readonly double[] _knots = [.. mask.Points.Select(p => p.Azimuth.Radians)];

    /// <summary>The spans of one climb above the mask, in order.</summary>
    public IEnumerable<AboveSpan> Of(AboveSpan climb)
    {
        var spans = new AboveSpans();
        PathPoint last = path.At(climb.Start);
        spans.Begin(last.T, last.Elevation - LimitAt(last.Azimuth), climb.CutAtStart);
        while (last.T < climb.End)
        {
            PathPoint next = path.At(Math.Min(climb.End, last.T + step));
            foreach (AboveSpan span in ShortSteps(last, next).SelectMany(piece => Take(spans, piece.From, piece.To)))
            {
                yield return span;
            }

            last = next;
        }

        if (spans.Finish(climb.End, climb.CutAtEnd) is { } open)
        {
            yield return open;
        }
    }

    private double LimitAt(double azimuth) => mask.Along(SegmentOf(azimuth), azimuth);

    private int SegmentOf(double azimuth) => mask.Segment(new Units.Angle(azimuth).WrappedToTurn().Radians);

    private IEnumerable<AboveSpan> Take(AboveSpans spans, PathPoint a, PathPoint b)
    {
        if (IsClear(a) && IsClear(b))
        {
            _ = spans.Take(t => path.At(t).Elevation - _highest, a.T, b.T, b.Elevation - _highest);
            yield break;
        }

        int segment = SegmentOf(a.Azimuth + (0.5 * Math.IEEERemainder(b.Azimuth - a.Azimuth, Math.Tau)));
        double slope = mask.SlopeOf(segment);
        double Clearance(PathPoint p) => p.Elevation - mask.Along(segment, p.Azimuth);
        double ClearanceAt(double t) => Clearance(path.At(t));
        double Rate(PathPoint p) => p.Rate - (slope * p.AzimuthRate);

        double end = Clearance(b);
        if (Rate(a) * Rate(b) < 0.0)
        {
            double turn = BracketedRoot.Between(t => RateScale * Rate(path.At(t)), a.T, b.T);
            if (spans.Take(ClearanceAt, a.T, turn, ClearanceAt(turn)) is { } first)
            {
                yield return first;
            }

            a = path.At(turn);
        }

        if (spans.Take(ClearanceAt, a.T, b.T, end) is { } second)
        {
            yield return second;
        }
    }

    private bool IsClear(PathPoint point) => point.Elevation > _highest;

    /// <summary>Halves a step until the azimuth swings little in it: overhead it turns by half a circle in a moment.</summary>
    private IEnumerable<(PathPoint From, PathPoint To)> ShortSteps(PathPoint a, PathPoint b)
    {
        if (IsClear(a) && IsClear(b))
        {
            return [(a, b)];
        }

        double length = b.T - a.T;
        double swing = Math.Max(Math.Abs(Math.IEEERemainder(b.Azimuth - a.Azimuth, Math.Tau)), length * Math.Max(Math.Abs(a.AzimuthRate), Math.Abs(b.AzimuthRate)));
        if (swing <= LargestSwing || length <= ShortestStep)
        {
            return SmoothPieces(a, b);
        }

        PathPoint middle = path.At(a.T + (0.5 * length));
        return ShortSteps(a, middle).Concat(ShortSteps(middle, b));
    }

    /// <summary>Splits a step where the azimuth turns back and where it meets a point of the mask.</summary>
    private IEnumerable<(PathPoint From, PathPoint To)> SmoothPieces(PathPoint a, PathPoint b)
    {
        var cuts = new List<PathPoint> { a };
        if (a.AzimuthRate * b.AzimuthRate < 0.0)
        {
            PathPoint turn = path.At(BracketedRoot.Between(t => RateScale * path.At(t).AzimuthRate, a.T, b.T));
            cuts.AddRange(Kinks(a, turn));
            cuts.Add(turn);
            cuts.AddRange(Kinks(turn, b));
        }
        else
        {
            cuts.AddRange(Kinks(a, b));
        }

        cuts.Add(b);
        return cuts.Zip(cuts.Skip(1));
    }

    private IEnumerable<PathPoint> Kinks(PathPoint a, PathPoint b)
    {
        double swing = Math.IEEERemainder(b.Azimuth - a.Azimuth, Math.Tau);
        return _knots
            .Select(knot => (Knot: knot, Along: Math.IEEERemainder(knot - a.Azimuth - (0.5 * swing), Math.Tau)))
            .Where(at => Math.Abs(at.Along) < Math.Abs(0.5 * swing))
            .Select(at => path.At(BracketedRoot.Between(t => Math.IEEERemainder(path.At(t).Azimuth - at.Knot, Math.Tau), a.T, b.T)))
            .OrderBy(point => point.T);
    }
}
