using System.Collections.Immutable;
using Cockpit.Commands;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Tests.Planning;

/// <summary>Which pass is flown when nobody named one.</summary>
public sealed class LivePickTests
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
    private static readonly Lazy<PassesAhead> Ahead = new(Find);

    [Fact]
    public void The_first_that_is_worth_it_is_flown_and_a_better_one_at_the_same_time_before_it()
    {
        LivePick pick = Pick(Noon);
        PlannedPass[] fine = [.. Ahead.Value.Worth.Where(one => one.Verdict.Word >= VerdictWord.Fair && one.Pass.Los.Utc >= Noon.AddMinutes(3)).OrderBy(one => one.Pass.Aos.Utc)];
        PlannedPass[] together = [.. fine.Where(one => one.Pass.Aos.Utc < fine[0].Pass.Los.Utc)];
        Assert.Equal(together.Max(one => one.Verdict.Score), pick.Chosen.Verdict.Score);
        Assert.Equal(fine.Take(5), pick.Passes);
        Assert.Contains(pick.Chosen.Verdict.Sentence, pick.Why, StringComparison.Ordinal);
    }

    // Whole days of half hours: whatever the moment, what is chosen is still to come, and nothing as good comes before it.
    [Fact]
    public void At_every_moment_the_choice_is_one_of_its_offers_and_not_over()
    {
        for (int half = 0; half < 30; half++)
        {
            DateTimeOffset now = Noon.AddMinutes(30 * half);
            LivePick pick = Pick(now);
            Assert.InRange(pick.Taken, 0, pick.Passes.Length - 1);
            Assert.InRange(pick.Passes.Length, 1, 5);
            Assert.True(pick.Chosen.Pass.Los.Utc >= now.AddMinutes(3));
            Assert.DoesNotContain(pick.Passes, one => one.Pass.Los.Utc < pick.Chosen.Pass.Aos.Utc);
        }
    }

    [Fact]
    public void Another_is_flown_on_demand_and_the_session_keeps_why()
    {
        LivePick other = Pick(Noon).With(1);
        Assert.Equal(1, other.Choice.Taken);
        Assert.StartsWith("your choice: ", other.Choice.Why, StringComparison.Ordinal);
        Assert.Equal(other.Passes.Select(one => one.Satellite), other.Choice.Offers.Select(offer => offer.Satellite));
        Assert.Equal(other.Passes[1], other.Alone.Chosen);
    }

    [Fact]
    public void Where_nothing_is_worth_it_one_sentence_says_what_to_do()
    {
        Assert.False(LivePick.Of(new PassesAhead([], 7), Noon).Try(out _, out ParseError? error));
        Assert.Equal("live: no pass of the next 24 hours is worth it for this dish (7 are too weak); --satellite NAME flies the next one all the same, cockpit passes --all shows them", error.ToString());
    }

    [Fact]
    public void Poor_passes_are_flown_where_nothing_better_comes()
    {
        PassesAhead poor = new([.. Ahead.Value.Worth.Where(one => one.Verdict.Word == VerdictWord.Poor)], 0);
        Assert.NotEmpty(poor.Worth);
        Assert.True(LivePick.Of(poor, Noon).Try(out LivePick? pick, out _));
        Assert.Contains("nothing better comes in 24 hours", pick.Why, StringComparison.Ordinal);
    }

    private static LivePick Pick(DateTimeOffset now)
    {
        Assert.True(LivePick.Of(Ahead.Value, now).Try(out LivePick? pick, out ParseError? error), error?.ToString());
        return pick;
    }

    private static PassesAhead Find()
    {
        Site station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);
        Assert.True(SatelliteChoice.Read(ReferenceFiles.PathOf("satellites.tle"), [], TextWriter.Null).Try(out ImmutableArray<Sgp4> satellites, out _));
        PassQuestion question = new(station, Noon, Noon.AddHours(24), Angle.FromDegrees(5), null, 0.0, Refraction: false);
        Assert.True(PassPlanner.Find(satellites, question, new VerdictSettings { Site = station }, []).Try(out PassesAhead? ahead, out _));
        return ahead;
    }
}
