using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Cockpit.Commands;
using Cockpit.Tests.Commands;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Heavens;

public sealed class BearingCommandTests
{
    private static readonly string[] Morning = ["bearing", "--station", "47.8,11.2,520", "--at", "2026-11-26T08:56:28Z"];

    // Sun and moon by two libraries (05_sun_moon, first row), declination by the World Magnetic Model (06_magnetic, first row of field_table.csv).
    [Fact]
    public async Task The_json_carries_the_published_values()
    {
        CommandRun run = await CommandRun.Of([.. Morning, "--format", "json"]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var json = JsonDocument.Parse(run.Output);
        double Number(string name) => json.RootElement.GetProperty(name).GetDouble();
        Assert.Equal(149.562764, Number("sun_azimuth_deg"), 0.002);
        Assert.Equal(15.648571, Number("sun_elevation_deg"), 0.002);
        Assert.Equal(311.211485, Number("moon_azimuth_deg"), 0.02);
        Assert.Equal(0.555187, Number("moon_elevation_deg"), 0.02);
        Assert.Equal(4.269231, Number("declination_deg"), 0.01);
        Assert.Equal(0.3639, Number("declination_uncertainty_deg"), 0.001);
        Assert.Equal(329.5627, Number("shadow_azimuth_deg"), 0.002);
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("warning").ValueKind);
    }

    [Fact]
    public async Task The_csv_has_the_same_names_in_one_header_and_one_line()
    {
        CommandRun csv = await CommandRun.Of([.. Morning, "--format", "csv", "--true", "2"]);
        CommandRun json = await CommandRun.Of([.. Morning, "--format", "json", "--true", "2"]);
        string[] lines = csv.Output.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        using var whole = JsonDocument.Parse(json.Output);
        Assert.Equal(string.Join(",", whole.RootElement.EnumerateObject().Select(property => property.Name)), lines[0]);
        string bearing = lines[1].Split(',')[Array.IndexOf(lines[0].Split(','), "magnetic_bearing_deg")];
        Assert.Equal(360 + 2 - 4.2695, double.Parse(bearing, CultureInfo.InvariantCulture), 0.001);
    }

    [Fact]
    public async Task The_table_warns_of_the_sun_by_day_and_not_by_night()
    {
        CommandRun day = await CommandRun.Of(Morning);
        Assert.Contains("shadow       points to 329.6° true", day.Output, StringComparison.Ordinal);
        Assert.Contains("never look along the dish", day.Output, StringComparison.Ordinal);
        Assert.Contains("hot focus", day.Output, StringComparison.Ordinal);
        CommandRun night = await CommandRun.Of("bearing", "--station", "47.8,11.2", "--at", "2026-11-26T22:00:00Z");
        Assert.Contains("the sun is down", night.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("caution", night.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Outside_the_years_of_the_model_the_warning_goes_to_the_error_side_and_into_the_json()
    {
        CommandRun run = await CommandRun.Of("bearing", "--station", "89,-121", "--at", "2036-11-26T08:56:28Z", "--format", "json");
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("2025.0 to 2030.0", run.Error, StringComparison.Ordinal);
        using var json = JsonDocument.Parse(run.Output);
        string warning = json.RootElement.GetProperty("warning").GetString()!;
        Assert.Contains("current chart", warning, StringComparison.Ordinal);
        Assert.Contains("compass cannot be used", warning, StringComparison.Ordinal);
    }

    // 13_north_ground/polaris.csv, first row, and landmarks.csv, first row.
    [Fact]
    public async Task The_json_carries_the_pole_star_and_the_landmark()
    {
        CommandRun run = await CommandRun.Of(
            "bearing", "--station", "47.8,11.2,520", "--at", "2026-08-23T17:01:00Z", "--to", "47.7985030,11.2055207", "--format", "json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var json = JsonDocument.Parse(run.Output);
        double Number(string name) => json.RootElement.GetProperty(name).GetDouble();
        Assert.Equal(0.187436, Number("polaris_azimuth_deg"), 0.002);
        Assert.Equal(47.184014, Number("polaris_elevation_deg"), 0.002);
        Assert.Equal(111.9203716, Number("landmark_azimuth_deg"), 1e-6);
        Assert.Equal(445.8169, Number("landmark_distance_m"), 1e-3);
        Assert.Equal(111.9203716 - Number("declination_deg"), Number("landmark_magnetic_deg"), 1e-5);
    }

    [Fact]
    public async Task Where_one_stands_is_no_landmark()
    {
        CommandRun json = await CommandRun.Of([.. Morning, "--to", "47.8,11.2", "--format", "json"]);
        using var document = JsonDocument.Parse(json.Output);
        Assert.Equal(JsonValueKind.Null, document.RootElement.GetProperty("landmark_azimuth_deg").ValueKind);
        Assert.Equal(0.0, document.RootElement.GetProperty("landmark_distance_m").GetDouble());
        CommandRun table = await CommandRun.Of([.. Morning, "--to", "47.8,11.2"]);
        Assert.Contains("it has no azimuth", table.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_table_tells_whether_the_pole_star_and_the_moon_can_be_seen()
    {
        CommandRun day = await CommandRun.Of(Morning);
        Assert.Contains("not to be seen before dark", day.Output, StringComparison.Ordinal);
        CommandRun night = await CommandRun.Of("bearing", "--station", "47.8,11.2", "--at", "2026-11-26T22:00:00Z");
        Assert.Matches(@"Polaris +azimuth \d+\.\d\d° true, [+-]?\d\.\d\d° from north, elevation 4\d\.\d°\r?\n", night.Output);
        CommandRun south = await CommandRun.Of("bearing", "--station=-33,20", "--at", "2026-11-26T22:00:00Z");
        Assert.Contains("too low to be seen", south.Output, StringComparison.Ordinal);
        CommandRun noon = await CommandRun.Of("bearing", "--station", "47.8,11.2", "--at", "2026-11-26T12:00:00Z");
        Assert.Matches(@"moon +down, \d+\.\d° below the horizon", noon.Output);
    }

    [Theory]
    [InlineData("bearing", "--station", "47,11", "--to", "47,11,north")]
    [InlineData("bearing")]
    [InlineData("bearing", "--station", "97,11")]
    [InlineData("bearing", "--station", "47,11", "--true", "north")]
    public async Task Wrong_words_get_one_sentence_and_exit_2(params string[] args)
    {
        CommandRun run = await CommandRun.Of(args);
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Single(run.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public async Task Without_an_instant_it_is_now()
    {
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 11, 26, 8, 56, 28, TimeSpan.Zero));
        using var output = new StringWriter();
        var root = new RootCommand { BearingCommand.Build(clock) };
        await root.Parse("bearing --station 47.8,11.2").InvokeAsync(new InvocationConfiguration { Output = output });
        Assert.Contains("2026-11-26 08:56:28 UTC", output.ToString(), StringComparison.Ordinal);
    }
}
