using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Tests;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>The set-up sheet in a real browser: on paper one page, on a phone without scrolling sideways.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class SetUpSheetPageTests(BrowserFixture fixture) : IDisposable
{
    private static readonly string[] Evening =
    [
        "tonight", "--elements", Path.Combine(Repository.Root, "tests", "data", "reference", "satellites.tle"), "--station", "47.8,11.2,520", "--from", "2026-11-25T06:00:00Z",
        "--time-zone", "Europe/Berlin", "--horizon", "0:10,90:15,180:5,270:20", "--signal", "tcp://127.0.0.1:5020?format=ci16&rate=3Msps",
    ];

    private readonly CockpitProcess _cockpit = new();

    public void Dispose() => _cockpit.Dispose();

    [ChromiumFact]
    public async Task The_sheet_is_one_page_on_both_papers_and_readable_on_a_phone() => await HoldAsync("--pass", "1");

    // A large dish has many holds, and with a slow turn the advice is long.
    [ChromiumFact]
    public async Task So_is_the_longest_sheet() => await HoldAsync("--dish", "1.4", "--pass", "5", "--turn", "9h");

    private async Task HoldAsync(params string[] more)
    {
        string file = Path.Combine(_cockpit.Folder, "sheet.html");
        (int code, _, string error) = await _cockpit.RunAsync([.. Evening, "--page", file, .. more]);
        Assert.Equal(0, code);
        Assert.Contains("the sheet of pass", error, StringComparison.Ordinal);
        await using BrowserPage page = await fixture.Browser.OpenAsync();
        foreach (int width in (int[])[390, 800, 1400])
        {
            foreach (bool dark in (bool[])[false, true])
            {
                Assert.Equal(1, await PageTrial.HoldAsync(page, new Uri(file), width, dark));
            }
        }

        // ISO 216 A4 and ANSI A (US letter), inches.
        foreach ((double width, double height) in ((double, double)[])[(210 / 25.4, 297 / 25.4), (8.5, 11.0)])
        {
            string pdf = Encoding.Latin1.GetString(await page.PrintAsync(width, height));
            Assert.StartsWith("%PDF-", pdf, StringComparison.Ordinal);
            Assert.Equal("1", Pages().Match(pdf).Groups["pages"].Value);
        }
    }

    [GeneratedRegex(@"/Type /Pages\s+/Count (?<pages>[0-9]+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Pages();

    [ChromiumFact]
    public async Task On_paper_it_is_black_on_white_even_where_the_screen_is_dark()
    {
        string file = Path.Combine(_cockpit.Folder, "sheet.html");
        (int code, _, _) = await _cockpit.RunAsync([.. Evening, "--page", file]);
        Assert.Equal(0, code);
        await using BrowserPage page = await fixture.Browser.OpenAsync();
        await page.LookAsync(733, 1062, dark: true, printed: true);
        await page.GoAsync(new Uri(file));
        JsonElement found = await page.EvaluateAsync(
            "(()=>{const s=getComputedStyle(document.body);return {ink:s.color,paper:s.backgroundColor,soft:[...document.querySelectorAll('th,p,li,td,h2,svg text')].map(e=>e.closest('svg')?getComputedStyle(e).fill:getComputedStyle(e).color).filter(c=>Math.max(...c.match(/[0-9]+/g).map(Number))>40)}})()");
        Assert.Equal(("rgb(0, 0, 0)", "rgb(255, 255, 255)", 0), (found.GetProperty("ink").GetString(), found.GetProperty("paper").GetString(), found.GetProperty("soft").GetArrayLength()));
        Assert.Empty(page.Complaints);
        Assert.Single(page.Requests);
    }
}
