using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Core.Passes;

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
    public List<AboveSpan> Of(AboveSpan climb)
    {
        var found = new List<AboveSpan>();
        var spans = new AboveSpans();
        PathPoint last = path.At(climb.Start);
        spans.Begin(last.T, Clearance(SegmentOf(last.Azimuth), last), climb.CutAtStart);
        while (last.T < climb.End)
        {
            PathPoint next = path.At(Math.Min(climb.End, last.T + step));
            TakeStep(spans, found, last, next);
            last = next;
        }

        AddTo(found, spans.Finish(climb.End, climb.CutAtEnd));
        return found;
    }

    private static void AddTo(List<AboveSpan> found, AboveSpan? span)
    {
        if (span is { } ended)
        {
            found.Add(ended);
        }
    }

    private static double Swing(in PathPoint a, in PathPoint b) => Math.IEEERemainder(b.Azimuth - a.Azimuth, Math.Tau);

    private static bool LiesWithin(double azimuth, in PathPoint a, in PathPoint b)
    {
        double half = 0.5 * Swing(a, b);
        return Math.Abs(Math.IEEERemainder(azimuth - a.Azimuth - half, Math.Tau)) < Math.Abs(half);
    }

    private bool IsClear(in PathPoint point) => point.Elevation > _highest;

    private int SegmentOf(double azimuth) => mask.Segment(Angle.FromRadians(azimuth).WrappedToTurn().Radians);

    private double Clearance(int segment, in PathPoint point) => point.Elevation - mask.Along(segment, point.Azimuth);

    private double Rate(int segment, in PathPoint point) => point.Rate - (mask.SlopeOf(segment) * point.AzimuthRate);

    /// <summary>Halves a step until the azimuth swings little in it: overhead it turns by half a circle in a moment.</summary>
    private void TakeStep(AboveSpans spans, List<AboveSpan> found, in PathPoint a, in PathPoint b)
    {
        if (IsClear(a) && IsClear(b))
        {
            // Far beyond every line of the mask; between such points nothing can end, only begin.
            AddTo(found, spans.Take(t => path.At(t).Elevation - _highest, a.T, b.T, 1.0));
            return;
        }

        double length = b.T - a.T;
        double swing = Math.Max(Math.Abs(Swing(a, b)), length * Math.Max(Math.Abs(a.AzimuthRate), Math.Abs(b.AzimuthRate)));
        if (swing > LargestSwing && length > ShortestStep)
        {
            PathPoint middle = path.At(a.T + (0.5 * length));
            TakeStep(spans, found, a, middle);
            TakeStep(spans, found, middle, b);
        }
        else if (a.AzimuthRate * b.AzimuthRate < 0.0)
        {
            PathPoint turn = path.At(BracketedRoot.Between(t => RateScale * path.At(t).AzimuthRate, a.T, b.T));
            TakeSweep(spans, found, a, turn);
            TakeSweep(spans, found, turn, b);
        }
        else
        {
            TakeSweep(spans, found, a, b);
        }
    }

    /// <summary>A piece in which the azimuth moves one way: split where it meets a point of the mask.</summary>
    private void TakeSweep(AboveSpans spans, List<AboveSpan> found, PathPoint a, in PathPoint b)
    {
        if (MeetsKnot(a, b))
        {
            foreach (PathPoint kink in Kinks(a, b))
            {
                TakeSmooth(spans, found, a, kink);
                a = kink;
            }
        }

        TakeSmooth(spans, found, a, b);
    }

    private bool MeetsKnot(in PathPoint a, in PathPoint b)
    {
        foreach (double knot in _knots)
        {
            if (LiesWithin(knot, a, b))
            {
                return true;
            }
        }

        return false;
    }

    private PathPoint[] Kinks(PathPoint a, PathPoint b) =>
    [
        .. _knots
            .Where(knot => LiesWithin(knot, a, b))
            .Select(knot => path.At(BracketedRoot.Between(t => Math.IEEERemainder(path.At(t).Azimuth - knot, Math.Tau), a.T, b.T)))
            .OrderBy(point => point.T),
    ];

    /// <summary>A piece along one line of the mask: split where the clearance turns.</summary>
    private void TakeSmooth(AboveSpans spans, List<AboveSpan> found, in PathPoint a, in PathPoint b)
    {
        int segment = SegmentOf(a.Azimuth + (0.5 * Swing(a, b)));
        double end = Clearance(segment, b);
        bool turns = Rate(segment, a) * Rate(segment, b) < 0.0;
        if (turns || end > 0.0 != spans.IsOpen)
        {
            Resolve(spans, found, segment, a.T, b.T, end, turns);
        }
    }

    private void Resolve(AboveSpans spans, List<AboveSpan> found, int segment, double start, double end, double valueAtEnd, bool turns)
    {
        double ClearanceAt(double t) => Clearance(segment, path.At(t));
        if (turns)
        {
            double turn = BracketedRoot.Between(t => RateScale * Rate(segment, path.At(t)), start, end);
            AddTo(found, spans.Take(ClearanceAt, start, turn, ClearanceAt(turn)));
            start = turn;
        }

        AddTo(found, spans.Take(ClearanceAt, start, end, valueAtEnd));
    }
}
