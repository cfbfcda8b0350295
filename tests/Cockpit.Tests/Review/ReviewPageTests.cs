using System.Xml.Linq;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Reports;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Review;

public sealed class ReviewPageTests
{
    private static readonly ReviewLog Log = ReviewRecorder.LogOf(FaultyPass.Fly(4).Envelopes)!;
    private static readonly SessionReview Review = Reviewer.Make(Log)!;
    private static readonly string Page = ReviewPage.Of(Review, Log.Settings, Log.BeamWidth, ScanLine.UsualHalfAngle);

    [Fact]
    public void The_page_stands_alone()
    {
        Assert.DoesNotContain("<script", Page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http", Page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("url(", Page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<link", Page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("NaN", Page, StringComparison.Ordinal);
        Assert.Contains("Natural Earth, public domain", Page, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_picture_is_well_formed_and_says_what_it_shows()
    {
        int pictures = 0;
        for (int at = Page.IndexOf("<svg", StringComparison.Ordinal); at >= 0; at = Page.IndexOf("<svg", at + 1, StringComparison.Ordinal))
        {
            XElement svg = XElement.Parse(Page[at..(Page.IndexOf("</svg>", at, StringComparison.Ordinal) + 6)]);
            Assert.True(svg.Attribute("aria-hidden") is not null || svg.Attribute("aria-label")!.Value.Length > 10);
            pictures++;
        }

        Assert.Equal(6 + Review.Gaps.Select(g => g.Cause).Distinct().Count(), pictures);
    }

    [Fact]
    public void Each_gap_stands_in_the_table_and_in_the_pictures()
    {
        Assert.All(Review.Gaps, gap => Assert.Contains($"<td>{gap.FromUtc:HH:mm:ss.f}</td>", Page, StringComparison.Ordinal));
        Assert.All(Review.Gaps.Select(g => CauseWords.NameOf(g.Cause)), cause => Assert.Contains($"lost c-{cause}\"", Page, StringComparison.Ordinal));
    }

    [Fact]
    public void A_name_cannot_break_the_page()
    {
        string page = ReviewPage.Of(Review with { SatelliteName = "<b>&\"" }, Log.Settings with { StationName = "<i>" }, Log.BeamWidth, Angle.FromDegrees(30));
        Assert.Contains("<title>&lt;b&gt;&amp;&quot;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<i>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_writes_it_whole_or_says_why_not()
    {
        string sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");
        string file = Path.Combine(Path.GetTempPath(), $"cockpit-{Guid.NewGuid():N}.html");
        try
        {
            CommandRun run = await CommandRun.Of("review", sample, "--page", file);
            Assert.Equal((0, ""), (run.ExitCode, run.Error));
            Assert.EndsWith("</html>\n", await File.ReadAllTextAsync(file), StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }

        CommandRun nowhere = await CommandRun.Of("review", sample, "--page", Path.Combine(file, "no", "page.html"));
        Assert.Equal((1, ""), (nowhere.ExitCode, nowhere.Output));
        Assert.Contains("choose another file with --page", nowhere.Error, StringComparison.Ordinal);
    }
}
