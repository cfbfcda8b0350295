using System.Diagnostics;
using System.Globalization;

namespace Cockpit.Wiring;

/// <summary>What a run cost, for --measure: first paint, processor, memory, and how long a signal line took to the snapshot and to the painted bytes.</summary>
/// <param name="time">Real time.</param>
public sealed class Measurements(TimeProvider time)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<long, long> _arrived = [];
    private readonly SortedDictionary<long, long> _waitingForPaint = [];
    private readonly List<double> _toSnapshotMs = [];
    private readonly List<double> _toPaintMs = [];
    private double? _firstPaintMs;
    private TimeSpan _cpuAtFirstPaint;
    private long _firstPaintAt;

    /// <summary>A signal line has just been taken from its feed and got a sequence number.</summary>
    /// <param name="sequence">The number.</param>
    /// <param name="sentUtc">When its sender wrote it, if it says so by the clock of this machine; the count then starts there.</param>
    public void Arrived(long sequence, DateTimeOffset? sentUtc)
    {
        lock (_gate)
        {
            TimeSpan underway = sentUtc is { } sent ? time.GetUtcNow() - sent : TimeSpan.Zero;
            bool plausible = underway >= TimeSpan.Zero && underway < TimeSpan.FromSeconds(10);
            _arrived[sequence] = time.GetTimestamp() - (plausible ? (long)(underway.TotalSeconds * time.TimestampFrequency) : 0);
        }
    }

    /// <summary>The snapshot that follows an event is made.</summary>
    public void SnapshotMade(long sequence)
    {
        lock (_gate)
        {
            if (_arrived.Remove(sequence, out long arrived))
            {
                _toSnapshotMs.Add(time.GetElapsedTime(arrived).TotalMilliseconds);
                _waitingForPaint[sequence] = arrived;
            }
        }
    }

    /// <summary>The bytes of a frame that shows this snapshot, and so all before it, have gone to the terminal.</summary>
    public void Painted(long sequence)
    {
        lock (_gate)
        {
            if (_firstPaintMs is null)
            {
                using Process self = Process.GetCurrentProcess();
                _firstPaintMs = (time.GetUtcNow().UtcDateTime - self.StartTime.ToUniversalTime()).TotalMilliseconds;
                _cpuAtFirstPaint = self.TotalProcessorTime;
                _firstPaintAt = time.GetTimestamp();
            }

            while (_waitingForPaint.Count > 0)
            {
                (long first, long arrived) = _waitingForPaint.First();
                if (first > sequence)
                {
                    break;
                }

                _toPaintMs.Add(time.GetElapsedTime(arrived).TotalMilliseconds);
                _waitingForPaint.Remove(first);
            }
        }
    }

    /// <summary>The figures as lines for people.</summary>
    /// <param name="drawn">How long a page needed to draw what was sent.</param>
    public IReadOnlyList<string> Report(IEnumerable<TimeSpan> drawn)
    {
        lock (_gate)
        {
            using Process self = Process.GetCurrentProcess();
            List<string> lines = [];
            if (_firstPaintMs is { } paint)
            {
                double seconds = time.GetElapsedTime(_firstPaintAt).TotalSeconds;
                double load = 100.0 * (self.TotalProcessorTime - _cpuAtFirstPaint).TotalSeconds / Math.Max(seconds, 1e-3);
                lines.Add(string.Create(CultureInfo.InvariantCulture, $"first paint        {paint:0} ms after the process began"));
                lines.Add(string.Create(CultureInfo.InvariantCulture, $"processor          {load:0.0} % of one core over the {seconds:0.0} s after it"));
            }

            lines.Add(string.Create(CultureInfo.InvariantCulture, $"memory             {self.PeakWorkingSet64 / 1048576.0:0} MB resident at most"));
            AddLatency(lines, "line to snapshot", _toSnapshotMs);
            AddLatency(lines, "line to screen", _toPaintMs);
            AddLatency(lines, "sent to the phone", [.. drawn.Select(span => span.TotalMilliseconds)], "frames drawn there");
            return lines;
        }
    }

    private static void AddLatency(List<string> lines, string name, List<double> milliseconds, string what = "lines")
    {
        if (milliseconds.Count == 0)
        {
            return;
        }

        milliseconds.Sort();
        double At(double share) => milliseconds[(int)Math.Min(milliseconds.Count - 1, share * milliseconds.Count)];
        lines.Add(string.Create(
            CultureInfo.InvariantCulture,
            $"{name,-18} median {At(0.5):0.00} ms, p99 {At(0.99):0.00} ms, worst {milliseconds[^1]:0.00} ms over {milliseconds.Count} {what}"));
    }
}
