using System.Text.Json;
using System.Text.Json.Nodes;
using Cockpit.EndToEnd.Tests.Browser;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>The phone's page looked at in every state, size and colour.</summary>
[Collection(BrowserTests.Name)]
public sealed class PhoneLookTests(BrowserFixture fixture)
{
    /// <summary>A folder to which every picture is written, where the variable names one: for people who want to look themselves.</summary>
    private static readonly string? Album = Environment.GetEnvironmentVariable("COCKPIT_PHONE_PICTURES") is { Length: > 0 } folder ? folder : null;

    private static readonly (int Width, int Height)[] Sizes = [(360, 740), (390, 844), (844, 390), (1024, 768)];
    private static readonly (string Look, string Step)[] Colours = [("night", "1"), ("night", "2"), ("night", "3"), ("day", "2"), ("contrast", "2")];

    /// <summary>States with the longest words that the program has, and the shape each must have for itself.</summary>
    private static readonly (string Name, string Shape, JsonObject Guidance)[] States =
    [
        ("move", "arrow", Of("MOVE", 8, 4, 63.4, "RIGHT 8  UP 4", null, null, "-2.1 dB", "", "peaked", "moved", "notmoved")),
        ("losing", "arrow", Of("MOVE", -120, -10, 262, "LEFT 120  DOWN 10", null, null, "-11.4 dB", "the sun stands close by: the signal may fall for a short time", "peaked", "moved", "notmoved")),
        ("next", "arrow hollow", Of("NEXT", 8, 4, 63.4, "THEN RIGHT 8  UP 4", 12, 0.3, "-0.4 dB", "", "peaked", "moved", "notmoved")),
        ("hold", "disc", Of("HOLD", null, null, null, "", 122, 0.8, "+0.3 dB", "", "peaked", "moved", "notmoved")),
        ("search", "spiral", Of("SEARCH", null, null, null, "", null, null, "no signal", "turn slowly, press PEAKED where it is best", "peaked")),
        ("search-side", "spiral+side", Of("SEARCH", 12, -3, 104, "THEN RIGHT 12  DOWN 3", 9, 0.5, "no signal", "", "peaked")),
        ("wait", "glass", Of("WAIT", null, null, null, "", 5130, 0.6, "", "set up to azimuth 214, elevation 10")),
        ("point", "sight+side", Of("POINT", 12, -3, 104, "RIGHT 12  DOWN 3", null, null, "", "point at the church tower, then press HERE", "here")),
        ("over", "square", Of("OVER", null, null, null, "", null, null, "", "94.2 percent of the lines were received")),
        ("none", "bar", Of("NONE", null, null, null, "", null, null, "", "")),
        ("unknown", "unknown", Of("MOVE", 8, 4, null, "RIGHT 8  UP 4", null, null, "-2.1 dB", "", "peaked", "moved", "notmoved")),
        ("flat", "arrow+lift", Of("MOVE", 8, 4, 63.4, "RIGHT 8  UP 4", 4.2, 0.42, "-2.1 dB", "", "peaked", "moved", "notmoved")),
        ("flat-down", "lift", Of("MOVE", 0, -4, 180, "DOWN 4", 4.2, 0.42, "-2.1 dB", "", "peaked", "moved", "notmoved")),
    ];

    [ChromiumFact]
    public async Task Every_state_has_a_shape_of_its_own_and_is_readable_on_four_sizes_by_night_and_by_day()
    {
        await using PhoneSession session = await PhoneSession.StartAsync(home => home.Live("--phone", "127.0.0.1:0"));
        await using PhoneAtDish phone = await PhoneAtDish.OpenAsync(fixture.Browser);
        await phone.GoAsync(session.Address);
        await PhoneLook.TeachAsync(phone.Page);
        await EverySizeAsync(phone, [("start", "", "")]);
        await phone.Page.ClickAsync("#go");
        await phone.UntilAsync("guidance!==null");

        // From here on the test says what is shown, through the page's own door.
        await phone.Page.EvaluateAsync("clearInterval(beat),link.take=()=>{},sensor='ok'");
        await EverySizeAsync(phone, [.. States.Select(Given), ("no-link", "cross", "arrived=-1e9;draw()")]);
        await EverySizeAsync(phone, [("choices", "", "openChoices()")]);
        await phone.Page.EvaluateAsync("link.lost(4001)");
        await EverySizeAsync(phone, [("other-phone", "phones", "")]);
        Assert.Equal("OTHER PHONE", (await phone.Page.EvaluateAsync("document.body.dataset.state")).GetString());
        await phone.Page.EvaluateAsync("link.lost(4003)");
        await EverySizeAsync(phone, [("scan-again", "", "")]);
        Assert.Empty(phone.Page.Complaints);
        Assert.All(phone.Page.Requests, request => Assert.Equal(session.Address.Authority, new Uri(request).Authority));
    }

    private static (string Name, string Shape, string Before) Given((string Name, string Shape, JsonObject Guidance) state)
    {
        state.Guidance["flat"] = state.Name.StartsWith("flat", StringComparison.Ordinal);
        return (state.Name, state.Shape, $"arrived=now();guided({state.Guidance.ToJsonString()})");
    }

    private static async Task EverySizeAsync(PhoneAtDish phone, (string Name, string Shape, string Before)[] states)
    {
        foreach ((int width, int height) in Sizes)
        {
            await phone.ScreenAsync(width, height, width > height ? 90 : 0);
            await phone.UntilAsync($"innerWidth==={width}&&innerHeight==={height}");
            foreach ((string name, string shape, string before) in states)
            {
                string where = $"{name} at {width} x {height}";
                (string Look, string Step)[] colours = name is "move" or "losing" ? Colours : [("night", "2"), ("day", "2")];
                JsonElement[] all = await PhoneLook.HoldAsync(phone.Page, before, colours, where);
                Assert.All(all, found => Assert.Equal((where, shape), (where, found.GetProperty("shapes").GetString())));
                if (name == "move" && (width, height) == (390, 844))
                {
                    Assert.All(all, found => Assert.True(found.GetProperty("word").GetDouble() >= 67.0 && found.GetProperty("picture").GetDouble() >= 250.0, $"{where}: {found}"));
                }

                if (Album is not null)
                {
                    await KeepAsync(phone.Page, name, $"{width}x{height}", before, colours);
                }
            }
        }
    }

    private static async Task KeepAsync(BrowserPage page, string name, string size, string before, (string Look, string Step)[] colours)
    {
        Directory.CreateDirectory(Album!);
        foreach ((string look, string step) in colours)
        {
            await page.EvaluateAsync($"(()=>{{document.body.dataset.look='{look}';document.body.dataset.step='{step}';{before}}})()");
            await File.WriteAllBytesAsync(Path.Combine(Album!, $"{name}-{size}-{look}{step}.png"), await page.PictureAsync());
        }
    }

    private static JsonObject Of(string word, double? right, double? up, double? arrow, string text, double? seconds, double? ring, string signal, string note, params string[] buttons) => new()
    {
        ["t"] = "g", ["n"] = 1, ["word"] = word, ["right"] = right, ["up"] = up, ["total"] = right is null || up is null ? null : Math.Sqrt((right.Value * right.Value) + (up.Value * up.Value)),
        ["arrow"] = arrow, ["flat"] = false, ["text"] = text, ["in"] = seconds, ["ring"] = ring, ["signal"] = signal, ["lost"] = signal.StartsWith("-11", StringComparison.Ordinal),
        ["cue"] = "", ["c"] = 0, ["say"] = "", ["note"] = note, ["buttons"] = new JsonArray([.. buttons.Select(b => (JsonNode)b)]),
    };
}
