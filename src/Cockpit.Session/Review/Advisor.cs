using System.Collections.Immutable;
using System.Globalization;

namespace Cockpit.Session.Review;

/// <summary>Turns what was lost into at most three sentences, most worth first.</summary>
internal static class Advisor
{
    private const int Most = 3;
    private const int FewestLines = 12;
    private const double SlipThatMatters = 3.0;

    public static ImmutableArray<Advice> Make(ImmutableArray<Gap> gaps, HandReview hand, DopplerSlip? doppler, int sent)
    {
        var all = new List<Advice>();
        foreach (IGrouping<GapCause, Gap> group in gaps.GroupBy(g => g.Cause))
        {
            int lines = group.Sum(g => g.Lines);
            if (Sentence(group.Key, group.Count(), lines, hand) is { } text)
            {
                all.Add(new Advice(text, lines));
            }
        }

        // Less than half a percent of the pass, or two seconds, is not worth a sentence.
        ImmutableArray<Advice> best = [.. all.Where(a => a.Lines * 200 >= sent && a.Lines >= FewestLines).OrderByDescending(a => a.Lines).Take(Most)];
        return best.Length < Most && doppler is { } slip && Math.Abs(slip.SlipSeconds) > Math.Max(SlipThatMatters, 3.0 * slip.Sd)
            ? best.Add(new Advice(Text($"The carrier came {Math.Abs(slip.SlipSeconds):0.0} s {(slip.SlipSeconds > 0 ? "early" : "late")}: set the clock, then get younger elements."), 0))
            : best;
    }

    private static string? Sentence(GapCause cause, int gaps, int lines, HandReview hand)
    {
        string cost = Text($"{lines} lines in {gaps} {(gaps == 1 ? "gap" : "gaps")}");
        return cause switch
        {
            GapCause.Late => hand.ReactionSeconds is { } r
                ? Text($"Nudges came late ({cost}): you begin {r.Value:0.0} s after the call; start on the third tick, or let the call come earlier.")
                : Text($"Nudges came late or not at all ({cost}): start on the third tick, or let the call come earlier."),
            GapCause.Amount => hand.Amount is { } a && Math.Abs(a.Value - 1.0) > 2.0 * a.Sd
                ? Text($"Nudges had the wrong size ({cost}): on the whole you move {a.Value:0.00} times what is called; mark the head every five degrees.")
                : Text($"Nudges had the wrong size ({cost}): mark the head every five degrees and move by the marks."),
            GapCause.WrongWay => Text($"Nudges went the wrong way ({cost}): short-long is left, long-short is right, the second note says up or down; key A says it again."),
            GapCause.NotFound => Text($"The satellite was found late ({cost}): set the first hold by a landmark or the pole star before the rise, and listen from the horizon on."),
            GapCause.OffAim => Text($"The dish was off without a nudge ({cost}): tighten the head, weigh the tripod down, peak again after a knock."),
            GapCause.Fade => Text($"Something was in the way for a while ({cost}): people, branches; a place with a freer view."),
            GapCause.Skyline => Text($"Trees or roofs took the ends of the pass ({cost}): choose a place that is free there, or teach the skyline so that it is planned."),
            GapCause.Weak => Text($"Even perfect aim was below the need ({cost}): nothing a hand could do; a larger dish, a better amplifier, higher passes."),
            GapCause.Overload => Text($"The receiver clipped ({cost}): less gain."),
            GapCause.FeedSilent => Text($"The feed was silent ({cost}): keep the receiver's program and its computer awake."),
            GapCause.RecorderStopped => Text($"Signal was good and nothing was counted ({cost}): look at recorder, decoder and disk."),
            GapCause.Sun => Text($"The way around the sun cost {cost}: nothing a hand could do; a pass at another hour, or a dull dish and --sun fly at your own risk."),
            GapCause.NotTransmitting => Text($"Nothing came at any aim ({cost}): check amplifier, cable and frequency, and whether the satellite sends at all."),
            _ => null,
        };
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
