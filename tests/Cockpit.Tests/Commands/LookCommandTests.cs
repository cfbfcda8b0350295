using System.Text.Json;

namespace Cockpit.Tests.Commands;

public sealed class LookCommandTests
{
    private static readonly string Elements = ReferenceFiles.PathOf("satellites.tle");

    private static readonly string[] Here = ["look", "--elements", Elements, "--satellite", "MARLSNIPE 1", "--station", "47.8,11.2,520"];

    private static readonly string[] Newlines = ["\n"];

    private static Task<CommandRun> Run(params string[] more) => CommandRun.Of([.. Here, .. more]);

    private static string[] Lines(CommandRun run) => run.Output.Split(Newlines, StringSplitOptions.RemoveEmptyEntries);

    [Fact]
    public async Task Csv_has_the_promised_columns_and_decimals()
    {
        CommandRun run = await Run("--at", "2026-11-25T17:24:40Z,2026-11-25T17:24:50Z", "--frequency", "1.7GHz", "--format", "csv");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal("satellite,catalog_number,utc,azimuth_deg,elevation_deg,range_km,range_rate_km_s,doppler_hz", Lines(run)[0]);
        Assert.Equal(3, Lines(run).Length);
        string[] cells = Lines(run)[1].Split(',');
        Assert.Equal(["MARLSNIPE 1", "99101", "2026-11-25T17:24:40.000000Z"], cells[..3]);
        Assert.Equal([8, 8, 7, 10, 3], cells[3..].Select(cell => cell.Split('.')[1].Length));

        // tests/data/reference/02_look_angles/look_angles.csv, first row (a general-purpose astronomy library).
        Assert.StartsWith("65.476326", cells[3], StringComparison.Ordinal);
        Assert.StartsWith("-0.59561", cells[4], StringComparison.Ordinal);
    }

    // A set of 1999 flies as well as any; whoever asks must hear that it says nothing about today.
    [Fact]
    public async Task Elements_far_from_the_instant_are_told()
    {
        CommandRun run = await Run("--at", "1999-01-05T00:00:00Z", "--format", "csv");
        Assert.StartsWith("warning: the elements of MARLSNIPE 1 are of 2026-11-24, 10185 days away from the instant; it is not where they say, get newer ones", run.Error, StringComparison.Ordinal);
        Assert.Equal("", (await Run("--at", "2026-12-20T00:00:00Z")).Error);
        Assert.Equal("", (await Run("--since-epoch=14400000")).Error);
    }

    [Fact]
    public async Task Steps_times_from_a_list_and_minutes_since_the_epoch_agree_where_they_meet()
    {
        CommandRun steps = await Run("--from", "2026-11-25T17:00:00Z", "--step", "30s", "--count", "3");
        CommandRun list = await Run("--at", "2026-11-25T17:00:00Z,2026-11-25T17:00:30Z,2026-11-25T17:01:00Z");
        CommandRun span = await Run("--from", "2026-11-25T17:00:00Z", "--step", "30s", "--for", "1m");
        Assert.Equal(list.Output, steps.Output);
        Assert.Equal(list.Output, span.Output);
    }

    [Fact]
    public async Task Teme_needs_no_station_and_counts_minutes_from_the_epoch()
    {
        CommandRun run = await CommandRun.Of("look", "--elements", Elements, "--satellite", "99101", "--teme", "--since-epoch=-10,0,1440", "--format", "csv");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal("satellite,catalog_number,utc,minutes_since_epoch,error_code,x_km,y_km,z_km,vx_km_s,vy_km_s,vz_km_s", Lines(run)[0]);
        Assert.Equal(["-10.000000000", "0.000000000", "1440.000000000"], Lines(run)[1..].Select(line => line.Split(',')[3]));
        Assert.All(Lines(run)[1..], line => Assert.Equal([9, 9, 9, 12, 12, 12], line.Split(',')[5..].Select(cell => cell.Split('.')[1].Length)));
    }

    // 13_north_ground/ground.csv, first row.
    [Fact]
    public async Task Ground_needs_no_station_and_gives_the_published_edges()
    {
        CommandRun run = await CommandRun.Of(
            "look", "--elements", Elements, "--satellite", "99101", "--ground", "--at", "2026-11-25T11:35:56Z", "--half-angle", "55.4", "--format", "csv");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal(
            "satellite,catalog_number,utc,sub_lat_deg,sub_lon_deg,height_km,left_lat_deg,left_lon_deg,right_lat_deg,right_lon_deg", Lines(run)[0]);
        double[] numbers = [.. Lines(run)[1].Split(',')[3..].Select(cell => double.Parse(cell, System.Globalization.CultureInfo.InvariantCulture))];
        double[] published = [-66.662050, -47.307454, 815.6530, -68.187181, -13.937150, -59.615745, -71.153769];
        Assert.All(numbers.Zip(published), pair => Assert.Equal(pair.Second, pair.First, 0.001));
    }

    [Fact]
    public async Task A_scan_that_misses_the_earth_leaves_its_edges_empty()
    {
        CommandRun run = await CommandRun.Of(
            "look", "--elements", Elements, "--satellite", "99101", "--ground", "--at", "2026-11-25T11:35:56Z", "--half-angle", "80", "--format", "csv");
        Assert.EndsWith(",,,,", Lines(run)[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--ground", "--teme")]
    [InlineData("--half-angle", "50")]
    [InlineData("--ground", "--half-angle", "95")]
    public async Task Ground_in_wrong_company_is_refused_in_one_sentence(params string[] more)
    {
        CommandRun run = await Run(more);
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Single(run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public async Task Json_is_an_array_of_the_same_fields()
    {
        CommandRun run = await Run("--at", "2026-11-25T17:24:40Z", "--format", "json");
        using var document = JsonDocument.Parse(run.Output);
        JsonElement row = Assert.Single(document.RootElement.EnumerateArray());
        Assert.Equal(99101, row.GetProperty("catalog_number").GetInt32());
        Assert.Equal(-0.5956184, row.GetProperty("elevation_deg").GetDouble(), 1e-6);
        Assert.Equal(JsonValueKind.Null, row.GetProperty("doppler_hz").ValueKind);
    }

    [Fact]
    public async Task Without_a_satellite_all_of_the_file_are_shown_and_the_body_needs_no_file()
    {
        CommandRun all = await CommandRun.Of("look", "--elements", Elements, "--station", "47.8,11.2", "--at", "2026-11-25T12:00Z");
        Assert.Equal(1 + 6, Lines(all).Length);
        CommandRun sun = await CommandRun.Of("look", "--body", "sun", "--station", "47.8,11.2", "--at", "2026-11-25T12:00Z");
        Assert.StartsWith("sun,,2026-11-25T12:00:00.000000Z,194.", Lines(sun)[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refraction_lifts_only_what_is_above_the_horizon_and_only_on_request()
    {
        CommandRun plain = await Run("--at", "2026-11-25T17:26:40Z");
        CommandRun bent = await Run("--at", "2026-11-25T17:26:40Z", "--refraction");
        double Elevation(CommandRun run) => double.Parse(Lines(run)[1].Split(',')[4], System.Globalization.CultureInfo.InvariantCulture);
        Assert.InRange(Elevation(bent) - Elevation(plain), 0.1, 0.6);
    }

    [Fact]
    public async Task A_table_for_people_shows_the_age_of_the_elements()
    {
        CommandRun run = await Run("--at", "2026-11-25T17:24:40Z", "--format", "table");
        Assert.EndsWith("age d", Lines(run)[0], StringComparison.Ordinal);
        Assert.EndsWith("1.48", Lines(run)[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--station LAT,LON[,ALT_M] is needed: where do you stand?", "look", "--elements", "satellites.tle")]
    [InlineData("--elements FILE is needed (or --body sun|moon)", "look", "--station", "1,2")]
    [InlineData("--body stands in place of --elements and has no --teme; leave one of them out", "look", "--body", "sun", "--teme")]
    [InlineData("look: instants are given in two ways; use one of --at, --from, --times, --since-epoch", "look", "--body", "sun", "--station", "1,2", "--at", "2026-11-25", "--since-epoch=1")]
    [InlineData("look: --step, --count and --for need --from; write the first instant with it", "look", "--body", "sun", "--station", "1,2", "--count", "3")]
    [InlineData("--for: that makes more than 10000000 instants; make --step longer", "look", "--body", "sun", "--station", "1,2", "--from", "2026-11-25", "--for", "3000d", "--step", "1ms")]
    [InlineData("--count: that leads beyond the year 9999; make --step or --count smaller", "look", "--body", "sun", "--station", "1,2", "--from", "2026-11-25", "--step", "3000d", "--count", "100000")]
    [InlineData("--since-epoch counts from the epoch of elements, and the sky's bodies have none; use --at", "look", "--body", "sun", "--station", "1,2", "--since-epoch=1")]
    [InlineData("nowhere.txt: there is no such file; give the path of a text file with --times", "look", "--body", "sun", "--station", "1,2", "--times", "nowhere.txt")]
    [InlineData("nowhere.tle: there is no such file; give the path of a TLE or OMM file with --elements", "look", "--elements", "nowhere.tle", "--station", "1,2")]
    [InlineData("--since-epoch: 'x' is not a number of minutes; write it like --since-epoch=-10,0,1440; see cockpit look --help", "look", "--since-epoch=1,x")]
    [InlineData("--body: 'mars' is not a body of the sky here; choose sun or moon; see cockpit look --help", "look", "--body", "mars")]
    [InlineData("--dut1: '7' is not UT1 - UTC; write seconds from -1 to 1, like -0.05; see cockpit look --help", "look", "--dut1", "7")]
    [InlineData("--format: 'xml' is not a format; choose table, csv or json; see cockpit look --help", "look", "--format", "xml")]
    public async Task Wrong_words_get_one_sentence_and_exit_2(string sentence, params string[] args)
    {
        CommandRun run = await CommandRun.Of(args);
        Assert.Equal((2, "", sentence + Environment.NewLine), (run.ExitCode, run.Output, run.Error));
    }
}
