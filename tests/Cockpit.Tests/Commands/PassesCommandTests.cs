using System.Globalization;
using System.Text.Json;

namespace Cockpit.Tests.Commands;

public sealed class PassesCommandTests
{
    private static readonly string[] Here =
        ["passes", "--elements", ReferenceFiles.PathOf("satellites.tle"), "--station", "47.8,11.2,520"];

    private static readonly string[] Midnight = ["--from", "2026-11-25T00:00:00Z"];

    private static Task<CommandRun> Run(params string[] more) => CommandRun.Of([.. Here, .. more.Contains("--from") ? [] : Midnight, .. more]);

    private static async Task<JsonElement[]> PassesAsync(params string[] more)
    {
        CommandRun run = await Run([.. more, "--format", "json"]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var document = JsonDocument.Parse(run.Output);
        return [.. document.RootElement.EnumerateArray().Select(e => e.Clone())];
    }

    private static DateTimeOffset Utc(JsonElement pass, string name) =>
        DateTimeOffset.Parse(pass.GetProperty(name).GetString()!, CultureInfo.InvariantCulture);

    // tests/data/reference/03_passes/passes.csv: a general-purpose astronomy library, 72 h, six satellites.
    [Fact]
    public async Task Json_lists_the_passes_of_the_published_table()
    {
        JsonElement[] passes = await PassesAsync("--for", "72h", "--above", "5deg");
        CsvRow[] rows = [.. ReferenceFiles.Csv("03_passes/passes.csv").Where(r => r.Text("station") == "LOWLAND" && r.Text("threshold_deg") == "5").OrderBy(r => r.Utc("t_rise"))];
        Assert.Equal(rows.Length, passes.Length);
        Assert.All(rows.Zip(passes), pair =>
        {
            (CsvRow row, JsonElement pass) = pair;
            Assert.Equal(row.Text("satellite"), pass.GetProperty("satellite").GetString());
            Assert.Equal(0, (Utc(pass, "aos_utc") - row.Utc("t_rise")).TotalSeconds, 0.01);
            Assert.Equal(0, (Utc(pass, "los_utc") - row.Utc("t_set")).TotalSeconds, 0.01);
            Assert.Equal(0, (Utc(pass, "tca_utc") - row.Utc("t_culm")).TotalSeconds, 0.05);
            Assert.Equal(row.Number("el_max_deg"), pass.GetProperty("max_elevation_deg").GetDouble(), 1e-5);
            Assert.Equal(row.Number("az_rise_deg"), pass.GetProperty("aos_azimuth_deg").GetDouble(), 1e-4);
            Assert.Equal(row.Number("az_set_deg"), pass.GetProperty("los_azimuth_deg").GetDouble(), 1e-4);
            double across = Math.Cos(row.Number("el_max_deg") * Math.PI / 180); // overhead the azimuth means nothing
            Assert.Equal(0, across * (row.Number("az_culm_deg") - pass.GetProperty("tca_azimuth_deg").GetDouble()), 1e-3);
            Assert.InRange(pass.GetProperty("catalog_number").GetInt32(), 99101, 99136);
        });
    }

    [Fact]
    public async Task A_pass_that_runs_at_either_end_is_listed_whole()
    {
        JsonElement whole = (await PassesAsync("--satellite", "99129", "--for", "4h")).Single();
        JsonElement running = (await PassesAsync("--satellite", "99129", "--from", "2026-11-25T02:26:00Z", "--for", "1m"))[0];
        Assert.Equal(Utc(whole, "aos_utc"), Utc(running, "aos_utc"), TimeSpan.FromMilliseconds(1));
        Assert.Equal(Utc(whole, "los_utc"), Utc(running, "los_utc"), TimeSpan.FromMilliseconds(1));
        Assert.False(running.GetProperty("cut_at_start").GetBoolean());
    }

    [Fact]
    public async Task The_horizon_shortens_passes_and_refraction_lengthens_them()
    {
        double Minutes(JsonElement[] passes) => passes.Sum(p => p.GetProperty("duration_s").GetDouble()) / 60;
        double plain = Minutes(await PassesAsync("--for", "12h"));
        double hidden = Minutes(await PassesAsync("--for", "12h", "--horizon", "0:5,90:30,180:5"));
        double bent = Minutes(await PassesAsync("--for", "12h", "--refraction"));
        Assert.InRange(hidden, 0.2 * plain, 0.95 * plain);
        Assert.InRange(bent, 1.001 * plain, 1.05 * plain);
    }

    [Fact]
    public async Task An_empty_list_says_why_on_the_error_side()
    {
        CommandRun run = await Run("--for", "1m", "--above", "80", "--format", "json");
        Assert.Equal((0, "[]\n"), (run.ExitCode, run.Output));
        Assert.Equal("no pass above 80 degrees in this span; make --for longer or --above lower" + Environment.NewLine, run.Error);
    }

    [Fact]
    public async Task The_table_fits_eighty_columns()
    {
        CommandRun run = await Run("--for", "24h");
        Assert.All(run.Output.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Assert.StartsWith("    47.80 north, 11.20 east, 520 m; times are UTC\nsatellite", run.Output, StringComparison.Ordinal);
        Assert.InRange(run.Output.Split('\n').Length, 10, 40);
    }

    [Fact]
    public async Task The_table_shows_the_ten_best_by_time_and_says_what_it_left_out()
    {
        JsonElement[] all = await PassesAsync("--for", "24h");
        double[] scores = [.. all.Where(p => p.GetProperty("verdict").GetString() != "no").Select(p => p.GetProperty("score").GetDouble()).OrderDescending()];
        CommandRun run = await Run("--for", "24h");
        string[] rows = [.. run.Output.Split('\n').Where(line => line.Length > 0 && char.IsAsciiLetterUpper(line[0]))];
        Assert.Equal(10, rows.Length);
        Assert.Equal([.. rows.Select(row => row[13..21]).Order(StringComparer.Ordinal)], rows.Select(row => row[13..21]));
        string text = string.Join(' ', run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains($"Left out: {scores.Length - 10} more that are worth it", text, StringComparison.Ordinal);
        Assert.Contains($"and {all.Length - scores.Length} that are too weak", text, StringComparison.Ordinal);
        double[] most = [.. (await PassesAsync("--for", "24h", "--most", "10")).Select(p => p.GetProperty("score").GetDouble()).OrderDescending()];
        Assert.Equal(scores[..10], most);
    }

    [Fact]
    public async Task Several_satellites_may_be_named_and_one_that_is_missing_is_told()
    {
        CommandRun run = await Run("--for", "24h", "--format", "csv", "--satellite", "99129", "--satellite", "no such", "--satellite", "99136");
        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("--satellite: 'no such' is not in ", run.Error, StringComparison.Ordinal);
        Assert.Equal(["BRACKWING 5", "DUNLARK 6"], run.Output.Split('\n').Skip(1).Where(line => line.Length > 0).Select(line => line.Split(',')[0]).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Where_nothing_is_worth_it_the_table_says_so_and_all_shows_it()
    {
        CommandRun run = await Run("--for", "6h", "--dish", "0.2", "--service", "qpsk-2800k");
        Assert.Contains("is worth going out for; --all shows them", run.Error, StringComparison.Ordinal);
        CommandRun all = await Run("--for", "6h", "--dish", "0.2", "--service", "qpsk-2800k", "--all");
        Assert.Equal("", all.Error);
        Assert.True(all.Output.Split('\n').Length > 5);
    }

    [Theory]
    [InlineData("Option '--elements' is required; see cockpit passes --help", "passes", "--station", "1,2")]
    [InlineData("Option '--station' is required; see cockpit passes --help", "passes", "--elements", "x.tle")]
    [InlineData("x.tle: there is no such file; give the path of a TLE or OMM file with --elements", "passes", "--elements", "x.tle", "--station", "1,2")]
    [InlineData("--for: at most 366d can be searched; elements are not good for longer", "passes", "--elements", "x.tle", "--station", "1,2", "--for", "400d")]
    [InlineData("--from: the start is outside the years 1957 to 2200, where no elements are good", "passes", "--elements", "x.tle", "--station", "1,2", "--from", "1900-01-01")]
    [InlineData("--horizon: '5' is not a point of the horizon; write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5", "passes", "--elements", "x.tle", "--station", "1,2", "--horizon", "20:5,5")]
    [InlineData("hills.txt: there is no such file; give the path of a text file with --horizon", "passes", "--elements", "x.tle", "--station", "1,2", "--horizon", "hills.txt")]
    [InlineData("--above: '95' is outside -10 to 89.9 degrees; see cockpit passes --help", "passes", "--elements", "x.tle", "--station", "1,2", "--above", "95")]
    public async Task Wrong_words_get_one_sentence_and_exit_2(string sentence, params string[] args)
    {
        CommandRun run = await CommandRun.Of(args);
        Assert.Equal((2, "", sentence + Environment.NewLine), (run.ExitCode, run.Output, run.Error));
    }
}
