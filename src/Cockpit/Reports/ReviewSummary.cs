using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>A review in lines for people.</summary>
public static class ReviewSummary
{
    private const int MostGaps = 12;
    private static readonly string[] Eighths = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

    /// <summary>The lines, most important first: what was lost, why, what to do.</summary>
    /// <param name="review">The review.</param>
    /// <param name="brief">Without the list of gaps and the figures of hand and sky.</param>
    public static IEnumerable<string> Lines(SessionReview review, bool brief = false)
    {
        ArgumentNullException.ThrowIfNull(review);
        yield return Text($"{review.SatelliteName}, {review.FromUtc:yyyy-MM-dd HH:mm:ss} to {review.ToUtc:HH:mm:ss} UTC, top {review.HighestElevation.Degrees:0}°");
        yield return Row("lines", Count(review.Lines));
        if (review.Gaps.Length > 0)
        {
            yield return Row("lost by", string.Join(", ", ByCause(review)));
        }

        if (!brief)
        {
            foreach (string line in Gaps(review).Concat(Figures(review)))
            {
                yield return line;
            }
        }

        foreach (Advice advice in review.Advice)
        {
            yield return Row("advice", advice.Text);
        }
    }

    private static string Count(LineCount lines)
    {
        string by = lines.By == LineEvidence.Frames ? "the decoder's count" : "the level, for the feed counts no frames";
        string unwatched = lines.Unwatched > 0 ? Text($"; {lines.Unwatched} more were sent outside the session") : "";
        double share = lines.Sent > 0 ? 100.0 * lines.Received / lines.Sent : 0.0;
        return Text($"{lines.Received} received of {lines.Sent} sent ({share:0.0} %), {lines.Lost} lost, by {by}{unwatched}");
    }

    private static IEnumerable<string> ByCause(SessionReview review) => review.Gaps.GroupBy(g => g.Cause)
        .OrderByDescending(g => g.Sum(gap => gap.Lines))
        .Select(g => Text($"{CauseWords.NameOf(g.Key)} {g.Sum(gap => gap.Lines)} in {g.Count()}"));

    private static IEnumerable<string> Gaps(SessionReview review)
    {
        Gap[] shown = [.. review.Gaps.OrderByDescending(g => g.Lines).Take(MostGaps).OrderBy(g => g.FromUtc)];
        if (shown.Length > 0)
        {
            yield return "gaps         UTC         seconds  lines  cause             sure";
        }

        foreach (Gap gap in shown)
        {
            yield return Text($"             {gap.FromUtc:HH:mm:ss.f}  {(gap.ToUtc - gap.FromUtc).TotalSeconds,7:0.0}  {gap.Lines,5}  {CauseWords.NameOf(gap.Cause),-16} {100.0 * gap.Confidence,4:0} %");
        }

        if (review.Gaps.Length > shown.Length)
        {
            int lines = review.Gaps.Sum(g => g.Lines) - shown.Sum(g => g.Lines);
            yield return Text($"             and {review.Gaps.Length - shown.Length} smaller ones with {lines} lines");
        }
    }

    private static IEnumerable<string> Figures(SessionReview review)
    {
        HandReview hand = review.Hand;
        string reaction = hand.ReactionSeconds is { } r ? Text($"begins {r.Value:0.0} s after the call ± {r.Sd:0.0} ({r.Count} keys)") : "no reaction known (too few \"moved\" keys)";
        string amount = hand.Amount is { } a ? Text($"moves {a.Value:0.00} ± {a.Sd:0.00} of what is called") : "no amount known";
        yield return Row("hand", Text($"{reaction}; {amount}; {hand.Nudges} nudges called, {hand.Planned} planned, {hand.Marks} marks"));
        if (hand.DirectionDegrees is { } direction)
        {
            yield return Row("", Text($"direction of the moves scatters by {direction.Sd:0}° ({direction.Count} moves)"));
        }

        if (hand.Reactions.Length > 0)
        {
            yield return Row("reactions", string.Join(' ', hand.Reactions.Select(p => Text($"{p.Seconds:0.0}"))) + " s, call by call");
        }

        if (review.Doppler is { } doppler)
        {
            yield return Row("carrier", Text($"{Math.Abs(doppler.SlipSeconds):0.0} s {(doppler.SlipSeconds >= 0 ? "early" : "late")} ± {doppler.Sd:0.0} against elements and clock{Carrier(review.Carrier)}"));
        }

        foreach (SkyEdge edge in review.Edges)
        {
            double over = (edge.Elevation - edge.Mask).Degrees;
            string against = Math.Abs(over) < 0.5 ? "as planned" : Text($"{Math.Abs(over):0.0}° {(over > 0.0 ? "above" : "below")} the planned skyline");
            yield return Row("skyline", Text($"the signal {(edge.Came ? "came" : "went")} at azimuth {edge.Azimuth.Degrees:0}°, elevation {edge.Elevation.Degrees:0.0}°: {against}"));
        }

        if (review.Parts.Length > 1)
        {
            SkyPart best = review.Parts.MaxBy(p => p.Share);
            SkyPart worst = review.Parts.MinBy(p => p.Share);
            yield return Row("sky", Text($"best {Name(best)}, {100.0 * best.Share:0} % of {best.Sent}; worst {Name(worst)}, {100.0 * worst.Share:0} % of {worst.Sent}"));
        }
    }

    private static string Carrier(CarrierReview? carrier)
    {
        if (carrier is null)
        {
            return "";
        }

        string age = carrier.ElementsAgeDays is { } days ? Text($", elements {days:0.0} days old") : "";
        string clock = carrier.Clock is { } known ? Text($", clock {known.Behind.TotalSeconds:+0.0;-0.0;0.0} s by {known.Against}") : ", clock not compared";
        return age + clock + carrier.Verdict switch
        {
            CarrierVerdict.Fits => ": both are good enough",
            CarrierVerdict.Clock => ": the clock is off",
            CarrierVerdict.Elements => ": the elements are off",
            _ => ": one of them is off",
        };
    }

    private static string Name(SkyPart part) =>
        Eighths[(int)Math.Round(part.Azimuth.WrappedToTurn().Degrees / 45.0) % Eighths.Length] + (part.High ? " above 30°" : " below 30°");

    private static string Row(string name, string text) => $"{name,-12} {text}";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
