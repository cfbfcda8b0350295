using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

/// <summary>Simulated passes whose truth is known; the whole count is <c>cockpit check review</c>.</summary>
public sealed class ReviewTrialTests
{
    private static readonly FaultyPass Flown = FaultyPass.Fly(20010);
    private static readonly SessionReview Reviewed = ReviewRecorder.Of(Flown.Envelopes)!;
    private static readonly FaultyPass Stopped = FaultyPass.Fly(20026);

    [Fact]
    public void Lines_lost_agree_with_the_truth_within_one_percent_of_it()
    {
        Assert.Equal(LineEvidence.Frames, Reviewed.Lines.By);
        Assert.Equal(Reviewed.Lines.Sent, Reviewed.Lines.Received + Reviewed.Lines.Lost);
        Assert.Equal(Reviewed.Lines.Lost, Reviewed.Gaps.Sum(g => g.Lines));
        Assert.InRange(Reviewed.Lines.Lost, 0.99 * Flown.LinesLost, 1.01 * Flown.LinesLost);
    }

    [Fact]
    public void Gaps_with_plain_evidence_are_all_named_right()
    {
        (GapCause Truth, Gap Gap)[] clear =
        [
            .. new[] { Flown, Stopped }
                .SelectMany(pass => ReviewRecorder.Of(pass.Envelopes)!.Gaps.Select(gap => (Truth: ReviewTrial.TruthOf(pass, gap), Gap: gap)))
                .Where(pair => pair.Truth is not null)
                .Select(pair => (pair.Truth!.Value, pair.Gap)),
        ];
        GapCause[] plain = [GapCause.Overload, GapCause.FeedSilent];
        Assert.Equal(plain.Order(), clear.Select(c => c.Truth).Where(plain.Contains).Distinct().Order());
        Assert.All(clear.Where(c => plain.Contains(c.Truth)), c => Assert.Equal(c.Truth, c.Gap.Cause));
    }

    [Fact]
    public void A_satellite_that_was_not_found_at_the_begin_is_told_so_and_a_stopped_recorder_too()
    {
        Assert.Equal(GapCause.NotFound, Reviewed.Gaps[0].Cause);
        Assert.Equal(GapCause.NotFound, ReviewTrial.TruthOf(Flown, Reviewed.Gaps[0]));
        Gap[] stopped = [.. Reviewer.Make(Stopped.Log)!.Gaps.Where(g => ReviewTrial.TruthOf(Stopped, g) == GapCause.RecorderStopped)];
        Assert.Equal(2, stopped.Length);
        Assert.All(stopped, g => Assert.Equal(GapCause.RecorderStopped, g.Cause));
    }

    [Fact]
    public void A_silent_satellite_is_told_from_a_lost_one()
    {
        FaultyPass silent = FaultyPass.Fly(5);
        SessionReview review = ReviewRecorder.Of(silent.Envelopes)!;
        Gap gap = Assert.Single(review.Gaps);
        Assert.Equal((GapCause.NotTransmitting, review.Lines.Sent), (gap.Cause, gap.Lines));
    }

    [Fact]
    public void Advice_is_short_and_worth_something()
    {
        Assert.InRange(Reviewed.Advice.Length, 1, 3);
        Assert.All(Reviewed.Advice, a => Assert.True(a.Lines > 0 && a.Text.Contains("lines in", StringComparison.Ordinal), a.Text));
        Assert.Equal(Reviewed.Advice.OrderByDescending(a => a.Lines), Reviewed.Advice);
    }

    [Fact]
    public void What_is_gathered_while_a_pass_is_flown_is_what_its_events_tell_afterwards()
    {
        ReviewLog again = ReviewRecorder.LogOf(Flown.Envelopes)!;
        Assert.Equal(again.Blocks.AsEnumerable(), Flown.Log.Blocks);
        Assert.Equal(again.Calls.AsEnumerable(), Flown.Log.Calls);
        Assert.Equal(again.Keys.AsEnumerable(), Flown.Log.Keys);
    }
}
