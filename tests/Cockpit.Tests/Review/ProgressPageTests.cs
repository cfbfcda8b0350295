using Cockpit.Reports;
using Cockpit.Session.Review;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Review;

public sealed class ProgressPageTests
{
    // Twelve passes that get better by a percent each, with some spread.
    private static readonly ProgressPass[] Passes =
    [
        .. Enumerable.Range(0, 12).Select(i => new ProgressPass(
            new DateTimeOffset(2026, 11, 1, 10, 0, 0, TimeSpan.Zero).AddDays(i), "<b>PETREL</b>", i % 2 == 0 ? "live" : "simulated", 20.0 + (5 * i % 70), 4000,
            3000 + (60 * i) + (i % 3 * 10), new Spread(1.2 - (0.05 * i) + (i % 2 * 0.02), 0.2, 20), i == 4 ? null : new Spread(1.1, 0.1, 9))),
    ];

    [Fact]
    public void Each_figure_has_its_chart_and_a_point_for_each_pass()
    {
        var progress = Progress.Of(Passes);
        string page = ProgressPage.Of(progress, 20);
        int Count(string text) => page.Split(text).Length - 1;
        Assert.Equal(2 * (progress.Figures.Length + 1), Count("role=\"img\""));
        int points = progress.Figures.Sum(f => f.Points.Length) + progress.Passes.Length;
        Assert.Equal(2 * points, Count("<circle class=\"dot\"") + Count("<circle class=\"hollow\"") - Count("cx=\"12\" cy=\"5.5\"")); // those beside their names are none
        Assert.Contains("12 of 20 sessions", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>PETREL", page, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_trend_is_drawn_and_named_only_where_the_numbers_carry_it()
    {
        string page = ProgressPage.Of(Progress.Of(Passes), 12);
        Assert.Contains("Gets better: ", page, StringComparison.Ordinal);
        string still = ProgressPage.Of(Progress.Of(Passes.Select((p, i) => p with { Received = 3000 + (i * 7 % 5 * 100), ReactionSeconds = null, Amount = null })), 12);
        Assert.Contains("No change that the numbers carry: ", still, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"reach\"", still, StringComparison.Ordinal);
    }

    [Fact]
    public void No_pass_and_one_pass_have_a_page_too()
    {
        Assert.Contains("0 of 3 sessions", ProgressPage.Of(Progress.Of([]), 3), StringComparison.Ordinal);
        string one = ProgressPage.Of(Progress.Of(Passes[..1]), 1);
        Assert.Contains("Too few for a trend.", one, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", one, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_writes_it_or_says_why_not()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cockpit-progress-");
        string file = Path.Combine(folder.FullName, "progress.html");
        CommandRun run = await CommandRun.Of("progress", "--sessions", folder.FullName, "--page", file);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.EndsWith("</html>\n", await File.ReadAllTextAsync(file), StringComparison.Ordinal);
        CommandRun nowhere = await CommandRun.Of("progress", "--sessions", folder.FullName, "--page", Path.Combine(file, "no", "page.html"));
        Assert.Equal((1, ""), (nowhere.ExitCode, nowhere.Output));
        Assert.Contains("choose another file with --page", nowhere.Error, StringComparison.Ordinal);
        folder.Delete(recursive: true);
    }
}
