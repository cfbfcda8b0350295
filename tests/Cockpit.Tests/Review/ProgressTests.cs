using System.Collections.Immutable;
using System.Text.Json;
using Cockpit.Reports;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

/// <summary>Whether it gets better, on passes that are written down here.</summary>
public sealed class ProgressTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 1, 18, 0, 0, TimeSpan.Zero);

    private static ProgressPass Pass(int day, double top, int received, double? reaction = null, double? amount = null) => new(
        Start.AddDays(day), "PETREL 2", "live", top, 1000, received,
        reaction is { } r ? new Spread(r, 0.3, 8) : null, amount is { } a ? new Spread(a, 0.02, 8) : null);

    // By hand: 1, 2, 3, 5 rise by 1.3 with a residual of 0.3 in sum of squares; t(2, 97.5 %) is 4.3027.
    [Fact]
    public void A_trend_is_named_only_where_the_numbers_carry_it()
    {
        Trend rising = Trend.Of([1.0, 2.0, 3.0, 5.0])!.Value;
        Assert.Equal(1.3, rising.Slope, 1e-12);
        Assert.Equal(1.3 - (4.3027 * Math.Sqrt(0.3 / 2.0 / 5.0)), rising.Low, 1e-4);
        Assert.True(rising.IsCarried);
        Assert.False(Trend.Of([1.0, 5.0, 2.0, 4.0, 1.0])!.Value.IsCarried);
        Assert.Null(Trend.Of([1.0, 2.0, 3.0]));
        Assert.Equal("▁▄█", ProgressSummary.Sparkline([1.0, 2.0, 3.0]).Replace('▅', '▄'));
    }

    // Exactly 0.5 percent a session and 0.3 percent a degree, with a residue that is orthogonal to both: only the height hides the trend.
    [Fact]
    public void The_trend_of_the_lines_is_freed_from_the_height_of_the_passes()
    {
        double[] tops = [80, 30, 70, 20, 60, 15, 50, 10];
        double[] values = [.. tops.Select((top, i) => (0.5 * i) + (0.3 * top) + (i is 0 or 7 ? 0.01 : i is 3 or 4 ? -0.01 : 0.0))];
        Assert.False(Trend.Of(values)!.Value.IsCarried);
        Trend freed = Trend.Of(values, tops)!.Value;
        Assert.True(freed.IsCarried);
        Assert.Equal(0.5, freed.Slope, 0.01);
        Assert.Null(Trend.Of([1, 2, 3, 4], [1, 5, 2, 4]));
    }

    [Fact]
    public void Better_is_said_of_a_quicker_hand_and_nothing_of_a_hand_that_only_scatters()
    {
        var quicker = Progress.Of([.. Enumerable.Range(0, 8).Select(i => Pass(i, 40 + i, 900, 2.0 - (0.1 * i) + (0.01 * (i % 2)), 0.9 + (0.05 * (i % 2))))]);
        Assert.True(quicker.Figures.Single(f => f.Name == "reaction").Better);
        Assert.Null(quicker.Figures.Single(f => f.Name == "off amount").Better);
        Assert.Contains(ProgressSummary.Lines(quicker, 9), l => l.StartsWith("reaction, s", StringComparison.Ordinal) && l.Contains("gets better: -0.", StringComparison.Ordinal));
        Assert.Contains(ProgressSummary.Lines(quicker, 9), l => l.StartsWith("off amount", StringComparison.Ordinal) && l.Contains("no change that the numbers carry", StringComparison.Ordinal));
        Assert.Equal("8 of 9 sessions watched at least 100 s of their pass", ProgressSummary.Lines(quicker, 9).First());
    }

    [Fact]
    public void Passes_are_grouped_by_height_and_by_date_and_short_ones_are_left_out()
    {
        var progress = Progress.Of([Pass(1, 70, 950), Pass(0, 20, 600, 1.5), Pass(0, 25, 800, 1.7), Pass(2, 40, 10) with { Sent = 500 }]);
        Assert.Equal(3, progress.Passes.Length);
        Assert.Equal(["below 30°", "above 60°"], progress.ByTop.Select(g => g.Name));
        Assert.Equal(["2026-11-01", "2026-11-02"], progress.ByDate.Select(g => g.Name));
        ProgressGroup low = progress.ByTop[0];
        Assert.Equal((2, 70.0, 1.6), (low.Passes, low.Mean, low.ReactionSeconds!.Value));
        Assert.Equal(Math.Sqrt(200.0), low.Deviation!.Value, 1e-9);
        Assert.Null(progress.ByTop[1].Deviation);
        Assert.Equal(["2026-11", "2026-12"], Progress.Of([.. Enumerable.Range(0, 35).Select(i => Pass(i, 45, 900))]).ByDate.Select(g => g.Name));
    }

    [Fact]
    public void The_json_has_passes_figures_and_groups()
    {
        ImmutableArray<ProgressPass> passes = [.. Enumerable.Range(0, 6).Select(i => Pass(i, 40 + (7 * (i % 3)), 800 + (20 * i) + (i % 2), 1.5))];
        using var json = JsonDocument.Parse(ProgressJson.Of(Progress.Of(passes)));
        Assert.Equal(6, json.RootElement.GetProperty("passes").GetArrayLength());
        JsonElement lines = json.RootElement.GetProperty("figures")[0];
        Assert.Equal(("lines", "better"), (lines.GetProperty("name").GetString(), lines.GetProperty("verdict").GetString()));
        Assert.InRange(lines.GetProperty("change_low_95").GetDouble(), 1.5, 2.1);
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("figures")[1].GetProperty("change_a_session").ValueKind);
        Assert.Equal(80.0, json.RootElement.GetProperty("passes")[0].GetProperty("share_percent").GetDouble());
    }

    [Fact]
    public void Long_courses_are_drawn_by_the_means_of_neighbours() =>
        Assert.Equal(34, ProgressSummary.Sparkline([.. Enumerable.Range(0, 100).Select(i => (double)i)]).Length);
}
