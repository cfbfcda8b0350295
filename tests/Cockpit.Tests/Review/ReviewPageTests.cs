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
        XElement[] pictures = [.. Pictures(Page).Where(svg => svg.Attribute("aria-hidden") is null)];
        Assert.Equal(["wide", "narrow", "wide", "narrow", "wide", "narrow", "wide", "narrow", "both", "both"], pictures.Select(svg => svg.Attribute("class")!.Value));
        Assert.All(pictures, svg =>
        {
            Assert.Equal(svg.Attribute("aria-label")!.Value, svg.Element("title")!.Value);
            Assert.InRange(svg.Element("title")!.Value.Length, 10, 200);
            Assert.InRange(svg.Element("desc")!.Value.Length, 20, 400);
        });
    }

    [Fact]
    public void Each_gap_stands_in_the_table_and_in_the_pictures()
    {
        Assert.All(Review.Gaps, gap => Assert.Contains($"<td>{gap.FromUtc:HH:mm:ss.f}</td>", Page, StringComparison.Ordinal));
        Assert.All(Review.Gaps.Select(g => CauseWords.NameOf(g.Cause)), cause => Assert.Contains($"lost c-{cause}\"", Page, StringComparison.Ordinal));
        Assert.All(Review.Gaps.Select(g => CauseWords.NameOf(g.Cause)), cause => Assert.Contains($"across c-{cause}\"", Page, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_cause_has_its_own_row_so_that_no_colour_is_needed()
    {
        XElement strip = Pictures(Page).First(svg => svg.Attribute("class")?.Value == "wide");
        string[] names = [.. strip.Elements().Where(e => e.Name.LocalName == "text" && e.Attribute("x")!.Value == "0").Select(e => e.Value).Except(["all lines", "UTC", "elevation"])];
        Assert.Equal(Review.Gaps.GroupBy(g => g.Cause).OrderByDescending(g => g.Sum(gap => gap.Lines)).Select(g => CauseWords.NameOf(g.Key)), names);
        foreach (string name in names)
        {
            XElement[] boxes = [.. strip.Elements().Where(e => e.Attribute("class")?.Value == "lost c-" + name)];
            Assert.Equal(2, boxes.Select(e => e.Attribute("y")!.Value).Distinct().Count());
        }
    }

    [Fact]
    public void The_runs_of_lost_lines_hold_each_lost_line_once_in_its_own_gap()
    {
        LostRun[] runs = [.. LostRun.Of(Review)];
        Assert.Equal(Review.Lines.Lost, runs.Sum(r => (int)Math.Round((r.ToUtc - r.FromUtc).TotalSeconds * LineLedger.LinesPerSecond)));
        Assert.All(runs, r => Assert.True(r.FromUtc >= r.Gap.FromUtc && r.ToUtc <= r.Gap.ToUtc + TimeSpan.FromMilliseconds(1) && Review.Gaps[r.Number - 1] == r.Gap));
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("</title><img src=x onerror=alert(1)>")]
    [InlineData("\"><svg onload=alert(1)>&amp;")]
    public void A_name_cannot_break_the_page(string name)
    {
        string page = ReviewPage.Of(Review with { SatelliteName = name }, Log.Settings with { StationName = name, SatelliteName = name }, Log.BeamWidth, Angle.FromDegrees(30));
        string harmless = new('x', name.Length);
        string plain = ReviewPage.Of(Review with { SatelliteName = harmless }, Log.Settings with { StationName = harmless, SatelliteName = harmless }, Log.BeamWidth, Angle.FromDegrees(30));
        Assert.Contains(Svg.Safe(name), page, StringComparison.Ordinal);
        Assert.Equal(plain.Count(c => c == '<'), page.Count(c => c == '<'));
        Assert.Equal(plain.Count(c => c == '"'), page.Count(c => c == '"'));
        Assert.Equal(10, Pictures(page).Count(svg => svg.Attribute("aria-hidden") is null));
    }

    // From 830 km the edge of the earth is 62 degrees off the vertical: a wider scan sees no more.
    [Fact]
    public void A_scan_past_the_earth_ends_at_its_edge()
    {
        (double East, double North)[] wide = Swath(89.0);
        (double East, double North)[] edge = Swath(80.0);
        Assert.Equal(wide.Length, edge.Length);
        Assert.All(wide.Zip(edge), p => Assert.InRange(Math.Abs(p.First.East - p.Second.East) + Math.Abs(p.First.North - p.Second.North), 0.0, 5.0));
        Assert.True(wide.Max(p => p.East) - wide.Min(p => p.East) > 1.3 * (Swath(55.4).Max(p => p.East) - Swath(55.4).Min(p => p.East)));
    }

    [Theory]
    [InlineData(48.0, 11.0, true)]
    [InlineData(45.0, -30.0, false)]
    [InlineData(-85.0, 100.0, true)]
    [InlineData(-41.0, 175.5, true)]
    [InlineData(42.0, 50.5, false)] // inland water with a coast of its own
    public void Land_is_told_from_sea(double latitude, double longitude, bool land) =>
        Assert.Equal(land, Coastlines.IsLand(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude)));

    // The far side of the earth lies all around a map: a place opposite to land must not turn land and sea about.
    [Theory]
    [InlineData(15.0, 105.0)]
    [InlineData(50.2, 10.4)] // opposite: the Pacific
    [InlineData(-40.0, 176.0)] // opposite: land
    [InlineData(-90.0, 0.0)]
    [InlineData(66.0, -179.5)] // across the date line
    public void Land_on_the_map_is_land_on_the_earth(double latitude, double longitude)
    {
        var station = new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), 0.0);
        GroundView ground = GroundView.Of(Log.Settings with { Station = station }, ScanLine.UsualHalfAngle)!;
        (double East, double North)[][] shapes = [.. ground.Land(4000.0).Select(shape => shape.OfType<(double, double)>().ToArray())];
        int land = 0;
        for (int i = 0; i < 800; i++)
        {
            Angle atLatitude = Angle.FromDegrees(Math.Asin(-1.0 + ((i + 0.5) / 400.0)) * 180.0 / Math.PI);
            Angle atLongitude = Angle.FromDegrees(Math.IEEERemainder(i * 137.508, 360.0));
            (double east, double north) = ground.Of(atLatitude, atLongitude);
            if (Math.Sqrt((east * east) + (north * north)) < 3400.0)
            {
                bool drawn = shapes.Count(shape => IsInside(shape, east, north)) % 2 == 1;
                Assert.Equal(Coastlines.IsLand(atLatitude, atLongitude), drawn);
                land += drawn ? 1 : 0;
            }
        }

        Assert.InRange(land, 3, 120);
    }

    private static (double East, double North)[] Swath(double degrees) =>
        [.. GroundView.Of(Log.Settings, Angle.FromDegrees(degrees))!.Swath(Review.FromUtc, Review.ToUtc).OfType<(double, double)>()];

    private static bool IsInside((double X, double Y)[] shape, double x, double y)
    {
        bool inside = false;
        for (int i = 0; i < shape.Length; i++)
        {
            (double ax, double ay) = shape[i];
            (double bx, double by) = shape[(i + 1) % shape.Length];
            inside ^= (ay > y) != (by > y) && x < ax + ((bx - ax) * (y - ay) / (by - ay));
        }

        return inside;
    }

    private static IEnumerable<XElement> Pictures(string page)
    {
        for (int at = page.IndexOf("<svg", StringComparison.Ordinal); at >= 0; at = page.IndexOf("<svg", at + 1, StringComparison.Ordinal))
        {
            yield return XElement.Parse(page[at..(page.IndexOf("</svg>", at, StringComparison.Ordinal) + 6)]);
        }
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
