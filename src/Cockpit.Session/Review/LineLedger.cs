using System.Collections.Immutable;

namespace Cockpit.Session.Review;

/// <summary>Which lines were received, one state a line.</summary>
/// <param name="Start">Session time of the first line, seconds.</param>
/// <param name="States">One a line.</param>
/// <param name="By">What they rest on.</param>
public sealed record LineLedger(double Start, ImmutableArray<LineState> States, LineEvidence By)
{
    /// <summary>Lines sent in a second: 360 a minute, the rate of the high resolution picture transmission of polar weather satellites.</summary>
    public const double LinesPerSecond = 6.0;

    private const int FewestCounts = 3;

    /// <summary>Session time at which a line begins, seconds.</summary>
    public double TimeOf(int line) => Start + (line / LinesPerSecond);

    /// <summary>Lines in a span of the pass.</summary>
    public static int CountIn(double seconds) => (int)Math.Floor((seconds * LinesPerSecond) + 1e-6);

    /// <summary>By the decoder's count of frames: a line that was sent and not counted, then or later, is lost.</summary>
    /// <param name="counts">As they arrived.</param>
    /// <param name="start">First line, session time, seconds.</param>
    /// <param name="end">End of the last, session time, seconds.</param>
    /// <returns>Null when the feed counts none.</returns>
    /// <remarks>
    /// What is missing at a count is what was sent less what was counted; a feed that stalls makes up for it later, so only what is still missing at
    /// every later count is lost: the lowest of the rest. A count that falls is a decoder that was started again.
    /// </remarks>
    public static LineLedger? ByFrames(ImmutableArray<FrameCount> counts, double start, double end)
    {
        (double At, double Missing)[] points = [.. Missing(counts, start, end)];
        if (points.Length < FewestCounts)
        {
            return null;
        }

        for (int i = points.Length - 2; i >= 0; i--)
        {
            points[i].Missing = Math.Min(points[i].Missing, points[i + 1].Missing);
        }

        int lines = CountIn(end - start);
        var states = ImmutableArray.CreateBuilder<LineState>(lines);
        int next = 1;
        double zero = points[0].Missing;
        double before = 0.0;
        for (int line = 1; line <= lines; line++)
        {
            double at = start + (line / LinesPerSecond);
            while (next < points.Length - 1 && points[next].At < at)
            {
                next++;
            }

            (double fromAt, double fromMissing) = points[next - 1];
            (double toAt, double toMissing) = points[next];
            double share = toAt > fromAt ? Math.Clamp((at - fromAt) / (toAt - fromAt), 0.0, 1.0) : 1.0;
            double missing = Math.Floor(fromMissing + (share * (toMissing - fromMissing)) - zero + 0.5);
            states.Add(missing > before ? LineState.Lost : LineState.Received);
            before = Math.Max(before, Math.Min(missing, before + 1.0));
        }

        return new LineLedger(start, states.MoveToImmutable(), LineEvidence.Frames);
    }

    /// <summary>By the level, or by the decoder's lock where the feed tells it: half a second at a time; one in which nothing came counts as lost.</summary>
    /// <param name="blocks">Half seconds.</param>
    /// <param name="needDb">What the service needs; null where unknown, and then only lock counts.</param>
    /// <param name="start">First line, session time, seconds.</param>
    /// <param name="end">End of the last, session time, seconds.</param>
    public static LineLedger ByLevel(ImmutableArray<ReviewBlock> blocks, double? needDb, double start, double end)
    {
        int lines = CountIn(end - start);
        var states = ImmutableArray.CreateBuilder<LineState>(lines);
        for (int line = 0; line < lines; line++)
        {
            int at = (int)Math.Floor((start + ((line + 0.5) / LinesPerSecond) - blocks[0].Start) / ReviewBlock.Seconds);
            ReviewBlock block = blocks[Math.Clamp(at, 0, blocks.Length - 1)];
            bool good = block.Locked is { } locked ? locked >= 0.5 : block.LevelDb >= needDb;
            states.Add(good ? LineState.Received : LineState.Lost);
        }

        return new LineLedger(start, states.MoveToImmutable(), LineEvidence.Level);
    }

    private static IEnumerable<(double At, double Missing)> Missing(ImmutableArray<FrameCount> counts, double start, double end)
    {
        double received = 0.0;
        FrameCount? last = null;
        foreach (FrameCount count in counts)
        {
            if (count.At > end)
            {
                break;
            }

            if (last is { } before && before.At >= start)
            {
                received += count.Frames >= before.Frames ? count.Frames - before.Frames : count.Frames;
            }
            else if (count.At >= start)
            {
                // Lines between the start and the first count: as many as the count can hold, no more than were sent.
                double since = last is { } outside && count.Frames >= outside.Frames ? count.Frames - outside.Frames : count.Frames;
                received = Math.Min(since, LinesPerSecond * (count.At - start));
                yield return (start, 0.0);
            }

            last = count;
            if (count.At >= start)
            {
                yield return (count.At, (LinesPerSecond * (count.At - start)) - received);
            }
        }

        if (last?.At >= start)
        {
            yield return (end, (LinesPerSecond * (end - start)) - received);
        }
    }
}
