namespace Cockpit.Commands;

/// <summary>How many lines came within the last second, counted in tenths of it.</summary>
/// <param name="clock">What time goes by.</param>
internal sealed class RowRate(TimeProvider clock)
{
    private const int Tenths = 10;

    private readonly long[] _counts = new long[Tenths];
    private readonly long _start = clock.GetTimestamp();
    private long _last;

    /// <summary>Counts one line.</summary>
    /// <returns>Lines within the last second, this one included.</returns>
    public long Came()
    {
        long now = (long)(clock.GetElapsedTime(_start).TotalSeconds * Tenths);
        for (long skipped = Math.Max(_last + 1, now - Tenths + 1); skipped <= now; skipped++)
        {
            _counts[skipped % Tenths] = 0;
        }

        _last = now;
        _counts[now % Tenths]++;
        return _counts.Sum();
    }
}
