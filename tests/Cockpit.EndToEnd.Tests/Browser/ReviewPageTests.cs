using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Reports;
using Cockpit.Session.Review;
using Cockpit.Tests;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>The pages of the program in a real browser.</summary>
[Collection(BrowserTests.Name)]
public sealed class ReviewPageTests(BrowserFixture fixture) : IDisposable
{
    private static readonly int[] Widths = [390, 800, 1400];
    private readonly CockpitProcess _cockpit = new();

    [ChromiumFact]
    public async Task The_review_of_a_session_is_readable_on_phone_tablet_and_desk_by_day_and_by_night()
    {
        string file = Path.Combine(_cockpit.Folder, "review.html");
        (int code, _, string error) = await _cockpit.RunAsync("review", Sample("bad-pass"), "--page", file);
        Assert.Equal((0, ""), (code, error));
        await Hold(file, pictures: 6);
    }

    [ChromiumFact]
    public async Task Two_sessions_side_by_side_are_readable_too()
    {
        string file = Path.Combine(_cockpit.Folder, "both.html");
        (int code, string _, string error) = await _cockpit.RunAsync("review", Sample("petrel-2"), Sample("rehearsal"), "--page", file);
        Assert.Equal((0, ""), (code, error));
        await Hold(file, pictures: 11);
    }

    // A name that is a script, and one without a place to break: neither runs, neither widens the page.
    [ChromiumFact]
    public async Task The_page_of_progress_is_readable_whatever_satellites_are_called()
    {
        string file = Path.Combine(_cockpit.Folder, "progress.html");
        string[] names = ["<script>throw 1</script>", new string('W', 200), "PETREL 2"];
        var progress = Progress.Of(Enumerable.Range(0, 30).Select(i => new ProgressPass(
            new DateTimeOffset(2026, 11, 1, 10, 0, 0, TimeSpan.Zero).AddHours(13 * i), names[i % 3], i % 2 == 0 ? "live" : "simulated", 10.0 + (7 * i % 80), 4000,
            2500 + (40 * i) + (i % 4 * 60), new Spread(1.2, 0.2, 20), new Spread(0.9 + (i % 5 * 0.05), 0.1, 9))));
        await File.WriteAllTextAsync(file, ProgressPage.Of(progress, 31));
        await Hold(file, pictures: progress.Figures.Length + 1);
    }

    public void Dispose() => _cockpit.Dispose();

    private static string Sample(string name) => Path.Combine(Repository.Root, "sessions", "sample-" + name);

    private async Task Hold(string file, int pictures)
    {
        await using BrowserPage page = await fixture.Browser.OpenAsync();
        foreach (int width in Widths)
        {
            foreach (bool dark in (bool[])[false, true])
            {
                Assert.Equal(pictures, await PageTrial.HoldAsync(page, new Uri(file), width, dark));
            }
        }
    }
}
