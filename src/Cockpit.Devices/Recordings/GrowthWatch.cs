using Cockpit.Devices.Files;

namespace Cockpit.Devices.Recordings;

/// <summary>Watches how a file grows and what is left of its disk.</summary>
/// <param name="path">The file.</param>
/// <param name="time">What it goes by.</param>
internal sealed class GrowthWatch(string path, TimeProvider time)
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(500);
    private const int MostPoints = 10;

    private readonly Queue<(long At, long Bytes)> _points = new();
    private long _grewAt = time.GetTimestamp();
    private long _bytes = -1;
    private long? _lookedAt;

    /// <summary>How long the file has not grown.</summary>
    public TimeSpan StoodStill => time.GetElapsedTime(_grewAt);

    /// <summary>Notes the length; a report where one is due.</summary>
    /// <param name="bytes">Length of the file now.</param>
    public GrowthReport? Look(long bytes)
    {
        if (bytes != _bytes)
        {
            _grewAt = time.GetTimestamp();
            _bytes = bytes;
        }

        if (_lookedAt is { } last && time.GetElapsedTime(last) < Period)
        {
            return null;
        }

        long now = time.GetTimestamp();
        _lookedAt = now;
        if (_points.Count > 0 && bytes < _points.Last().Bytes)
        {
            _points.Clear();
        }

        _points.Enqueue((now, bytes));
        if (_points.Count > MostPoints)
        {
            _points.Dequeue();
        }

        (long at, long before) = _points.Peek();
        double seconds = time.GetElapsedTime(at, now).TotalSeconds;
        return new GrowthReport(path, bytes, seconds > 0 ? (bytes - before) / seconds : 0, StoodStill, DiskSpace.FreeBeside(path));
    }
}
