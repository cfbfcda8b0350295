using Cockpit.EndToEnd.Tests.Program;
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
        (int code, _, string error) = await _cockpit.RunAsync("review", Path.Combine(Repository.Root, "sessions", "sample-petrel-2"), "--page", file);
        Assert.Equal((0, ""), (code, error));
        await Hold(file, pictures: 5); // no reactions in it
    }

    public void Dispose() => _cockpit.Dispose();

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
