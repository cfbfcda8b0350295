using System.Text.Json;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Reports;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Review;

public sealed class ComparisonTests
{
    private static readonly ReviewLog Log = ReviewRecorder.LogOf(FaultyPass.Fly(4).Envelopes)!;
    private static readonly SessionReview Review = Reviewer.Make(Log)!;
    private static readonly ReviewedSession One = new("one", Log, Review);

    // Ten seconds later, and some lines the other way round.
    private static readonly ReviewedSession Other = new("other", Log, Review with
    {
        FromUtc = Review.FromUtc.AddSeconds(10.0), LineStates = [.. Review.LineStates.Skip(60).Select((s, i) => i is >= 100 and < 130 ? 1 - s : s)],
    });

    [Fact]
    public void Two_of_one_pass_are_compared_line_by_line()
    {
        var both = new Comparison(One, Other);
        Assert.True(both.SamePass);
        Assert.Empty(both.Differences);
        int turnedLost = Review.LineStates.Skip(160).Take(30).Count(s => s == LineState.Received);
        int lost = Review.LineStates.Skip(60).Count(s => s == LineState.Lost);
        Assert.Equal(new Both(Review.LineStates.Length - 60, 30 - turnedLost, turnedLost, lost - (30 - turnedLost)), both.Lines);
        Both turned = new Comparison(Other, One).Lines!;
        Assert.Equal((turnedLost, 30 - turnedLost), (turned.LostByA, turned.LostByB));
    }

    [Fact]
    public void What_is_not_the_same_is_told_and_the_rest_shown_all_the_same()
    {
        SessionReview later = Review with
        {
            SatelliteName = "FENHERON 4", FromUtc = Review.FromUtc.AddDays(1), ToUtc = Review.ToUtc.AddDays(1),
            Course = [.. Review.Course.Select(p => p with { Utc = p.Utc.AddDays(1) })],
        };
        var settings = Log.Settings with
        {
            DishDiameterMetres = 1.0, Station = Log.Settings.Station with { Latitude = Log.Settings.Station.Latitude + Angle.FromDegrees(1.0) },
            Elements = Log.Settings.Elements! with { CatalogNumber = 99 },
        };
        var both = new Comparison(One, new ReviewedSession("later", Log with { Settings = settings }, later));
        Assert.Null(both.Lines);
        Assert.Equal(
            [
                $"not the same satellite: {Review.SatelliteName}, and FENHERON 4",
                "not the same pass: B was highest 24 h later; times are told from the highest point",
                "not the same place: 111 km apart",
                "not the same dish: 0.8 m, and 1.0 m",
            ],
            both.Differences.AsEnumerable());
        string page = ComparisonPage.Of(both, ScanLine.UsualHalfAngle);
        Assert.Contains(">0</text>", page, StringComparison.Ordinal); // minutes from the highest point
        Assert.Contains("FENHERON 4", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Both_stand_on_one_time_axis()
    {
        string page = ComparisonPage.Of(new Comparison(One, Other), ScanLine.UsualHalfAngle);
        int Count(string text) => page.Split(text).Length - 1;
        Assert.Equal((4 * 2 * 2) + (2 * 2), Count("role=\"img\""));
        string tick = Review.FromUtc.AddMinutes(3).ToString("HH:", System.Globalization.CultureInfo.InvariantCulture);
        string[] ticks = [.. page.Split("<text class=\"t\" ").Where(t => t.Contains(">" + tick, StringComparison.Ordinal)).Select(t => t[..t.IndexOf('<', StringComparison.Ordinal)])];
        Assert.All(ticks.Where(t => t.Contains("y=\"211\"", StringComparison.Ordinal)).GroupBy(t => t, StringComparer.Ordinal), g => Assert.Equal(0, g.Count() % 2));
        Assert.True(ticks.Length > 20);
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_compares_two_sessions_in_words_json_and_a_page()
    {
        string sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");
        CommandRun table = await CommandRun.Of("review", sample, sample);
        Assert.Equal((0, ""), (table.ExitCode, table.Error));
        Assert.Contains("of 246 lines that both watched: 0 lost by A alone, 0 by B alone, 41 by both", table.Output, StringComparison.Ordinal);

        CommandRun json = await CommandRun.Of("review", sample, sample, "--format", "json");
        JsonElement told = JsonDocument.Parse(json.Output).RootElement;
        Assert.True(told.GetProperty("same_pass").GetBoolean());
        Assert.Equal(41, told.GetProperty("both").GetProperty("lost_by_both").GetInt32());
        Assert.Equal(205, told.GetProperty("b").GetProperty("review").GetProperty("lines").GetProperty("received").GetInt32());
    }

    [Fact]
    public async Task What_cannot_be_compared_is_refused_in_a_sentence()
    {
        string sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");
        CommandRun pictures = await CommandRun.Of("review", sample, sample, "--pictures", "x");
        Assert.Equal((2, "--pictures: the pictures of two sessions stand on one page; choose --page" + Environment.NewLine), (pictures.ExitCode, pictures.Error));
        CommandRun missing = await CommandRun.Of("review", sample, Path.Combine(sample, "none"));
        Assert.Equal((2, ""), (missing.ExitCode, missing.Output));
        Assert.Contains("none", missing.Error, StringComparison.Ordinal);
        CommandRun three = await CommandRun.Of("review", sample, sample, sample);
        Assert.Equal(2, three.ExitCode);
    }
}
