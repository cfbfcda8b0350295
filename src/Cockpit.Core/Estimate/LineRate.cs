namespace Cockpit.Core.Estimate;

/// <summary>Makes of a sender's count of picture lines the share of them that came.</summary>
/// <remarks>How many lines make a whole is not known: it is the fastest that the count has ever gone for two seconds.</remarks>
internal sealed class LineRate
{
    private const double LongSeconds = 2.0;
    private const double FewestLines = 2.0;

    private long _count = -1;
    private bool _told;
    private long _from = -1;
    private double _fromAt;
    private long _longFrom;
    private double _longFromAt;
    private double _mostPerSecond;

    /// <summary>A count came.</summary>
    public void Count(long count)
    {
        if (count < _count)
        {
            _from = -1;
        }

        _count = count;
        _told = true;
    }

    /// <summary>A block is over.</summary>
    /// <param name="seconds">Its end.</param>
    /// <returns>Share of the lines that came since the last share, 0..1; null when that cannot be said yet.</returns>
    public double? Close(double seconds)
    {
        if (!_told)
        {
            return null;
        }

        _told = false;
        if (_from < 0)
        {
            (_from, _fromAt, _longFrom, _longFromAt) = (_count, seconds, _count, seconds);
            return null;
        }

        if (seconds - _longFromAt >= LongSeconds)
        {
            _mostPerSecond = Math.Max(_mostPerSecond, (_count - _longFrom) / (seconds - _longFromAt));
            (_longFrom, _longFromAt) = (_count, seconds);
        }

        double expected = _mostPerSecond * (seconds - _fromAt);
        if (expected < FewestLines)
        {
            return null;
        }

        double share = Math.Min(1.0, (_count - _from) / expected);
        (_from, _fromAt) = (_count, seconds);
        return share;
    }
}
