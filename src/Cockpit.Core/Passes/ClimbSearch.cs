namespace Cockpit.Core.Passes;

/// <summary>A span above a constant elevation, with every culmination in it.</summary>
/// <param name="Span">Rise to set.</param>
/// <param name="Tops">Times of the local maxima of the elevation inside, in order; may be empty when the span is cut.</param>
internal sealed record Climb(AboveSpan Span, IReadOnlyList<double> Tops);

/// <summary>Finds when a satellite is above a constant elevation.</summary>
/// <remarks>
/// The elevation's rate is exact, so each sign change between two samples brackets one culmination or one lowest point;
/// between those the elevation only grows or only falls, and each crossing is bracketed too. So the shortest, flattest pass
/// is found as surely as a long one, with samples a minute apart. Where the geometry says that the satellite cannot be up,
/// nothing is sampled at all.
/// </remarks>
internal sealed class ClimbSearch(SkyPath path, double duration, double floor)
{
    private const double RateScale = 1000.0; // brings the rate of the elevation, some 1e-6 rad/s², to what the root finder expects
    private const double ModelEdgeSeconds = 0.001;

    private readonly AboveSpans _spans = new();
    private List<double> _tops = [];

    /// <summary>All climbs from 0 to the duration, in order.</summary>
    public IEnumerable<Climb> All()
    {
        PathPoint? last = null;
        double t = 0.0;
        while (true)
        {
            double step = path.Step(t, floor, out PathPoint? seen, out double quiet);
            if (seen is { } point)
            {
                if (last is not { } before)
                {
                    _spans.Begin(point.T, Height(point), cut: true);
                }
                else if (Advance(before, point) is { } climb)
                {
                    yield return climb;
                }

                last = point;
            }
            else if (last is { } good)
            {
                if (Closed(_spans.Finish(LastGood(good.T, t), cut: true)) is { } broken)
                {
                    yield return broken;
                }

                last = null;
            }

            if (t >= duration)
            {
                break;
            }

            t = Math.Min(duration, t + (_spans.IsOpen ? step : Math.Max(step, quiet)));
        }

        if (Closed(_spans.Finish(duration, cut: true)) is { } open)
        {
            yield return open;
        }
    }

    private double Height(in PathPoint point) => point.Elevation - floor;

    private double HeightAt(double t) => path.At(t).Elevation - floor;

    private Climb? Advance(in PathPoint a, in PathPoint b)
    {
        bool top = a.Rate > 0.0 && b.Rate < 0.0;
        bool bottom = a.Rate < 0.0 && b.Rate > 0.0 && _spans.IsOpen;
        if (!top && !bottom)
        {
            return Closed(_spans.Take(HeightAt, a.T, b.T, Height(b)));
        }

        // A climb can end in the first part or in the second, never in both: the turn is a top or a bottom.
        double turn = BracketedRoot.Between(t => RateScale * path.At(t).Rate, a.T, b.T);
        Climb? first = Closed(_spans.Take(HeightAt, a.T, turn, HeightAt(turn)));
        if (top && _spans.IsOpen)
        {
            _tops.Add(turn);
        }

        Climb? second = Closed(_spans.Take(HeightAt, turn, b.T, Height(b)));
        return first ?? second;
    }

    private Climb? Closed(AboveSpan? span)
    {
        if (span is not { } closed)
        {
            return null;
        }

        List<double> tops = _tops;
        _tops = [];
        return new Climb(closed, tops);
    }

    private double LastGood(double good, double bad)
    {
        while (bad - good > ModelEdgeSeconds)
        {
            double middle = 0.5 * (good + bad);
            (good, bad) = path.TryAt(middle, out _) ? (middle, bad) : (good, middle);
        }

        return good;
    }
}
