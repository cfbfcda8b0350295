using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>Lost lines without a received one between them.</summary>
/// <param name="FromUtc">Its first line, UTC.</param>
/// <param name="ToUtc">End of its last, UTC.</param>
/// <param name="Gap">The gap that it belongs to.</param>
/// <param name="Number">Number of that gap, from 1.</param>
internal readonly record struct LostRun(DateTimeOffset FromUtc, DateTimeOffset ToUtc, Gap Gap, int Number)
{
    private static readonly TimeSpan HalfLine = TimeSpan.FromSeconds(0.5 / LineLedger.LinesPerSecond);

    /// <summary>The runs of a review in order of time.</summary>
    public static IEnumerable<LostRun> Of(SessionReview review)
    {
        int gap = 0;
        for (int line = 0; line < review.LineStates.Length; line++)
        {
            int first = line;
            while (line < review.LineStates.Length && review.LineStates[line] == LineState.Lost)
            {
                line++;
            }

            while (gap < review.Gaps.Length && review.Gaps[gap].ToUtc < At(review, first) + HalfLine)
            {
                gap++;
            }

            if (line > first && gap < review.Gaps.Length)
            {
                yield return new LostRun(At(review, first), At(review, line), review.Gaps[gap], gap + 1);
            }
        }
    }

    private static DateTimeOffset At(SessionReview review, int line) => review.FromUtc + TimeSpan.FromSeconds(line / LineLedger.LinesPerSecond);
}
