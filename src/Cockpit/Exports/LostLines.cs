using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Exports;

/// <summary>The lines of a review one by one: received or lost, and by what.</summary>
public sealed class LostLines
{
    private readonly SessionReview _review;
    private readonly GapCause?[] _causes;
    private readonly double[] _sure;

    /// <param name="review">The review.</param>
    public LostLines(SessionReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        _review = review;
        _causes = new GapCause?[review.LineStates.Length];
        _sure = new double[_causes.Length];
        foreach (Gap gap in review.Gaps)
        {
            int first = (int)Math.Round((gap.FromUtc - review.FromUtc).TotalSeconds * LineLedger.LinesPerSecond);
            for (int line = Math.Max(0, first); line < Math.Min(_causes.Length, first + gap.Lines); line++)
            {
                _causes[line] = gap.Cause;
                _sure[line] = gap.Confidence;
            }
        }
    }

    /// <summary>The lost lines as a table.</summary>
    /// <param name="about">What the table is about.</param>
    public ExportTable Table(ImmutableArray<KeyValuePair<string, string>> about) => new(
        about,
        [
            new("line", "", ExportKind.Whole, "number of the line, from 1 at the first one that was watched; six a second"),
            new("utc", "UTC", ExportKind.Instant, "when it was sent"),
            new("cause", "", ExportKind.Text, "why it was lost"),
            new("confidence", "1", ExportKind.Number, "how sure that is, 0 to 1"),
        ],
        Rows());

    /// <summary>The line that is sent at an instant; null outside what was watched.</summary>
    public int? At(DateTimeOffset utc)
    {
        double line = (utc - _review.FromUtc).TotalSeconds * LineLedger.LinesPerSecond;
        return line >= 0.0 && line < _causes.Length ? (int)line : null;
    }

    /// <summary>Whether a line was received.</summary>
    public bool Received(int line) => _review.LineStates[line] == LineState.Received;

    /// <summary>Why a line was lost; null where it was not, or nothing was said.</summary>
    public string? Cause(int line) => _causes[line] is { } cause ? CauseWords.NameOf(cause) : null;

    private IEnumerable<ExportValue[]> Rows()
    {
        for (int line = 0; line < _causes.Length; line++)
        {
            if (!Received(line))
            {
                yield return
                [
                    ExportValue.Of(line + 1L),
                    ExportValue.Of(_review.FromUtc.AddSeconds(line / LineLedger.LinesPerSecond)),
                    ExportValue.Of(Cause(line) ?? CauseWords.NameOf(GapCause.Unknown)),
                    ExportValue.Of(_sure[line], 3),
                ];
            }
        }
    }
}
