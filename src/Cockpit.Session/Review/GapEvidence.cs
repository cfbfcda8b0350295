using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>What happened around one gap, cut to the half seconds in which the dish can be reasoned about.</summary>
/// <param name="From">Begin of the gap, or of the peaking or searching in which it began, session time, seconds.</param>
/// <param name="To">Its end, seconds.</param>
/// <param name="Blocks">Half seconds around it in which every move of the hand was called.</param>
/// <param name="Calls">Nudges called in them.</param>
/// <param name="Dish">Belief about the dish in the first of them; null when nothing was known.</param>
/// <param name="Coincidence">How likely it is that the gap ended by itself just when the hand did something, 0..1.</param>
/// <param name="HandBroughtItBack">Whether the hand was at work on finding the satellite when the gap ended.</param>
internal sealed record GapEvidence(
    double From, double To, ImmutableArray<ReviewBlock> Blocks, ImmutableArray<ReviewCall> Calls, Pointing? Dish, double Coincidence, bool HandBroughtItBack)
{
    private const double LookBackSeconds = 20.0;
    private const double LookBackForCalls = 24.0;
    private const double LookAheadSeconds = 6.0;
    private const double LongestSeconds = 30.0; // what began it is told by its begin; move after move, less and less is known of the dish
    private const double FreeHandAfter = 2.0;
    private const double MarkAfter = 2.6;
    private const double MarkInVain = 2.0;
    private const double CallBefore = 2.5;
    private const double LeastCoincidence = 0.08;

    /// <summary>Cuts the evidence for a gap.</summary>
    public static GapEvidence Of(ReviewLog log, double from, double to)
    {
        from = Onset(log, from);
        double end = Math.Min(Math.Min(to + LookAheadSeconds, from + LongestSeconds), FirstFreeHand(log, from));
        double earliest = LastFreeHand(log, from);
        ImmutableArray<ReviewCall> calls = [.. log.Calls.Where(c => c.At >= Math.Max(earliest, from - LookBackForCalls) && c.At < end)];
        double begin = Math.Max(earliest, Math.Min(from - LookBackSeconds, calls.IsEmpty ? double.MaxValue : calls[0].At - 1.0));
        ImmutableArray<ReviewBlock> blocks = [.. log.Blocks.Where(b => b.Start >= begin && b.Start < end && b.Look is not null)];
        return new GapEvidence(from, to, blocks, calls, blocks.IsEmpty ? null : blocks[0].Dish, CoincidenceOf(log, from, to), BroughtBack(log, from, to));
    }

    // A mark just after, or a nudge just before; but a mark that changed nothing says that the aim was right all the time.
    private static bool BroughtBack(ReviewLog log, double from, double to) =>
        !log.Keys.Any(k => k.Key == OperatorKey.Peaked && k.At > from + 0.5 && k.At < to - MarkInVain)
        && (log.Keys.Any(k => k.Key == OperatorKey.Peaked && k.At > to && k.At < to + MarkAfter)
            || log.Calls.Any(c => c.At > to - CallBefore && c.At < to));

    // The more the hand does in a gap, the less it says that the gap ended with it.
    private static double CoincidenceOf(ReviewLog log, double from, double to)
    {
        bool marked = log.Keys.Any(k => k.Key == OperatorKey.Peaked && k.At > to && k.At < to + MarkAfter);
        double busy = CallBefore * log.Calls.Count(c => c.At > from && c.At < to) / Math.Max(to - from, CallBefore);
        return Math.Clamp(marked ? 0.5 * busy : busy, LeastCoincidence, 1.0);
    }

    // A gap that begins while the hand is peaking or searching already has its cause before that: there the evidence ends.
    private static double Onset(ReviewLog log, double from)
    {
        int at = log.Blocks.Length - 1;
        while (at >= 0 && log.Blocks[at].Start > from)
        {
            at--;
        }

        double onset = from;
        while (at >= 0 && log.Blocks[at].Word is AimWord.Search)
        {
            onset = log.Blocks[at].Start;
            at--;
        }

        return onset;
    }

    // From a search or a peak on, the hand moves as it likes: nothing after that is a nudge that was called.
    private static double FirstFreeHand(ReviewLog log, double from)
    {
        double first = log.Keys.Where(k => k.Key == OperatorKey.Peaked && k.At > from).Select(k => k.At).DefaultIfEmpty(double.MaxValue).Min();
        foreach (ReviewBlock block in log.Blocks)
        {
            if (block.Start >= from && IsFree(block.Word))
            {
                return Math.Min(first, block.Start + FreeHandAfter);
            }
        }

        return first;
    }

    private static double LastFreeHand(ReviewLog log, double from)
    {
        double last = log.Keys.Where(k => k.Key == OperatorKey.Peaked && k.At <= from).Select(k => k.At).DefaultIfEmpty(double.MinValue).Max();
        foreach (ReviewBlock block in log.Blocks)
        {
            if (block.Start > from - 0.5)
            {
                break;
            }

            last = IsFree(block.Word) ? Math.Max(last, block.Start + ReviewBlock.Seconds) : last;
        }

        return last;
    }

    private static bool IsFree(AimWord word) => word is AimWord.Search or AimWord.Point;
}
