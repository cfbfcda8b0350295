namespace Cockpit.Core.Passes;

/// <summary>A span of time above a limit, seconds since the start of the search.</summary>
/// <param name="Start">Where the limit was passed upwards; the start of what was looked at when <paramref name="CutAtStart"/>.</param>
/// <param name="End">Where it was passed downwards; the end of what was looked at when <paramref name="CutAtEnd"/>.</param>
/// <param name="CutAtStart">It was above already.</param>
/// <param name="CutAtEnd">It was still above.</param>
internal readonly record struct AboveSpan(double Start, double End, bool CutAtStart, bool CutAtEnd);

/// <summary>Gathers the spans in which a function of time is positive from pieces in which it only grows or only falls.</summary>
internal sealed class AboveSpans
{
    private double _opened;
    private bool _cut;

    /// <summary>Whether the function is positive at the end of the last piece.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Begins at a time with a value; a positive one opens a span.</summary>
    /// <param name="t">Now.</param>
    /// <param name="value">Of the function.</param>
    /// <param name="cut">Whether the span may have begun earlier.</param>
    public void Begin(double t, double value, bool cut)
    {
        IsOpen = value > 0.0;
        _opened = t;
        _cut = cut;
    }

    /// <summary>Takes the next piece; each begins where the last one ended.</summary>
    /// <returns>The span that ended in it, or null.</returns>
    public AboveSpan? Take(Func<double, double> function, double start, double end, double valueAtEnd)
    {
        bool positive = valueAtEnd > 0.0;
        if (positive == IsOpen)
        {
            return null;
        }

        double crossing = BracketedRoot.Between(function, start, end);
        IsOpen = positive;
        if (!positive)
        {
            return new AboveSpan(_opened, crossing, _cut, false);
        }

        _opened = crossing;
        _cut = false;
        return null;
    }

    /// <summary>Ends what is still open.</summary>
    public AboveSpan? Finish(double t, bool cut)
    {
        bool wasOpen = IsOpen;
        IsOpen = false;
        return wasOpen ? new AboveSpan(_opened, t, _cut, cut) : null;
    }
}
