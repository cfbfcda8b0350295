using System.Text.Json;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Passes;

public sealed class PassesVerdictCommandTests
{
    private static readonly string[] Morning =
    [
        "passes", "--elements", ReferenceFiles.PathOf("satellites.tle"), "--station", "47.8,11.2,520", "--from", "2026-11-25T00:00:00Z", "--for", "10h",
    ];

    [Fact]
    public async Task The_json_carries_the_figures_of_the_verdict()
    {
        JsonElement pass = Assert.Single(await PassesAsync("--satellite", "99101"), one => Number(one, "max_elevation_deg") > 60);
        Assert.Equal("go", pass.GetProperty("verdict").GetString());
        Assert.Equal("from north-north-east, over the east, to south", pass.GetProperty("travel").GetString());
        Assert.Equal("part daylight", pass.GetProperty("light").GetString());
        Assert.StartsWith("go: high, 13 min (10 clean), part daylight, ", pass.GetProperty("sentence").GetString(), StringComparison.Ordinal);
        Assert.InRange(Number(pass, "margin_db"), 5, 9);
        Assert.InRange(Number(pass, "receivable_share"), 0.7, 0.9);
        Assert.Equal(Number(pass, "duration_s") * Number(pass, "receivable_share"), Number(pass, "receivable_s"), 1.0);
        Assert.InRange(Number(pass, "nudges"), 20, 30);
        Assert.InRange(Number(pass, "sun_below_satellite_deg"), 15, 25);
        Assert.InRange(Number(pass, "sun_separation_deg"), 15, 25);
        Assert.True(pass.GetProperty("sun_near").GetBoolean());
        Assert.Equal(3 * Number(pass, "elements_age_days"), Number(pass, "along_track_up_to_km"), 0.01);
    }

    [Fact]
    public async Task Best_first_holds_the_same_passes_in_falling_order()
    {
        JsonElement[] byTime = await PassesAsync();
        JsonElement[] best = await PassesAsync("--order", "best");
        Assert.Equal(byTime.Select(Key).Order(StringComparer.Ordinal), best.Select(Key).Order(StringComparer.Ordinal));
        Assert.Equal(byTime.Select(Key), byTime.OrderBy(pass => pass.GetProperty("aos_utc").GetString(), StringComparer.Ordinal).Select(Key));
        string[] words = ["go", "fair", "poor", "no"];
        Assert.Equal(best.Select(Key), best.OrderBy(pass => Array.IndexOf(words, pass.GetProperty("verdict").GetString())).ThenByDescending(pass => Number(pass, "score")).Select(Key));
    }

    [Fact]
    public async Task A_larger_dish_and_a_coded_service_give_more_margin_and_a_deaf_amplifier_less()
    {
        double usual = (await PassesAsync()).Sum(pass => Number(pass, "receivable_s"));
        Assert.True((await PassesAsync("--dish", "1.2")).Sum(pass => Number(pass, "receivable_s")) > usual);
        Assert.True((await PassesAsync("--service", "manchester-665k")).Sum(pass => Number(pass, "receivable_s")) > usual);
        Assert.True((await PassesAsync("--eirp", "36")).Sum(pass => Number(pass, "receivable_s")) < usual);
        Assert.True((await PassesAsync("--noise-figure", "3")).Sum(pass => Number(pass, "receivable_s")) < usual);
    }

    [Fact]
    public async Task The_table_says_verdict_and_way_below_each_pass_and_warns_of_the_sun()
    {
        CommandRun run = await CommandRun.Of(Morning);
        Assert.Contains(
            "\n    go: high, 13 min (10 clean), part daylight, 26 nudges; sun 20° away at\n    09:25; from north-north-east, over the east, to south\n", run.Output, StringComparison.Ordinal);
        Assert.Contains("hot focus", run.Output, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
    }

    [Theory]
    [InlineData("--order", "worst", "--order: 'worst' is not an order; choose time or best; see cockpit passes --help")]
    [InlineData("--dish", "80", "--dish: '80' is not a number from 0.2 to 10; see cockpit passes --help")]
    [InlineData("--service", "loud", "--service: 'loud' is not a service; choose split-phase-665k, manchester-665k, qpsk-2333k, qpsk-2800k; see cockpit passes --help")]
    public async Task Wrong_words_get_one_sentence(string option, string value, string sentence)
    {
        CommandRun run = await CommandRun.Of([.. Morning, option, value]);
        Assert.Equal((2, "", sentence + Environment.NewLine), (run.ExitCode, run.Output, run.Error));
    }

    private static string Key(JsonElement pass) => $"{pass.GetProperty("satellite").GetString()} {pass.GetProperty("aos_utc").GetString()}";

    private static double Number(JsonElement pass, string name) => pass.GetProperty(name).GetDouble();

    private static async Task<JsonElement[]> PassesAsync(params string[] more)
    {
        CommandRun run = await CommandRun.Of([.. Morning, "--format", "json", .. more]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var document = JsonDocument.Parse(run.Output);
        return [.. document.RootElement.EnumerateArray().Select(element => element.Clone())];
    }
}
