using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Cockpit.Commands;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Tests.Planning;
using Cockpit.Tests.Screen;

namespace Cockpit.Tests.Commands;

/// <summary>The evening as a whole.</summary>
public sealed partial class TonightCommandTests : IDisposable
{
    private const double LightMetresPerSecond = 299_792_458.0; // SI brochure, 9th edition

    private static readonly Site Station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-tonight-");

    public void Dispose() => _folder.Delete(recursive: true);

    private string Elements(params ElementSet[] sets)
    {
        string path = Path.Combine(_folder.FullName, "elements.tle");
        File.WriteAllText(path, string.Concat(sets.Select(set => TleWriter.Write(set).Value?.TrimEnd() + "\n")));
        return path;
    }

    private static ElementSet Orbit(string name, int number, double meanAnomaly, DateTimeOffset epoch) => Evenings.Orbit(name, number, meanAnomaly, epoch);

    private static Task<CommandRun> Run(string elements, params string[] more) =>
        CommandRun.Of(["tonight", "--elements", elements, "--station", "47.8,11.2,520", "--time-zone", "Europe/Berlin", .. more]);

    private static async Task<JsonElement[]> PassesAsync(string elements, params string[] more)
    {
        CommandRun run = await Run(elements, [.. more, "--format", "json"]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var document = JsonDocument.Parse(run.Output);
        return [.. document.RootElement.EnumerateArray().Select(pass => pass.Clone())];
    }

    private static double Number(JsonElement pass, string name) => pass.GetProperty(name).GetDouble();

    private static DateTimeOffset Utc(JsonElement pass, string name) => DateTimeOffset.Parse(pass.GetProperty(name).GetString()!, CultureInfo.InvariantCulture);

    // Two satellites on one way, five minutes apart, and a third with the evening for itself.
    private string Three()
    {
        DateTimeOffset epoch = new(2026, 11, 26, 0, 0, 0, TimeSpan.Zero);
        return Elements(Orbit("PETREL 2", 99201, 100, epoch), Orbit("BRACKWING 7", 99202, 82, epoch), Orbit("FENHERON 9", 99203, 250, epoch));
    }

    private static readonly string[] Evening =
    [
        "--from", "2026-11-26T05:00:00Z", "--for", "24h", "--downlink", "PETREL 2=1701.3MHz", "--downlink", "BRACKWING=1707MHz,qpsk-2333k",
        "--signal", "tcp://127.0.0.1:5020?format=ci16&rate=3Msps", "--horizon", "0:8,90:12,180:6,270:15",
    ];

    [Fact]
    public async Task The_evening_is_as_its_golden()
    {
        CommandRun run = await Run(Three(), Evening);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.All(run.Output.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Golden.Check("tonight", FreeDisk().Replace(run.Output, "(what is free here)"));
    }

    [GeneratedRegex(@"A recording takes [^;]*;[^;]*?\.(?=\n)", RegexOptions.Singleline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex FreeDisk();

    [Fact]
    public async Task The_names_of_the_columns_stay() => Assert.Equal(
        "rank,satellite,catalog_number,verdict,score,sentence,travel,"
        + "rise_utc,rise_local,rise_azimuth_deg,rise_compass_deg,rise_elevation_deg,rise_over_skyline_deg,rise_light_below,rise_tune_hz,"
        + "top_utc,top_local,top_azimuth_deg,top_compass_deg,top_elevation_deg,top_over_skyline_deg,top_light_below,top_tune_hz,"
        + "set_utc,set_local,set_azimuth_deg,set_compass_deg,set_elevation_deg,set_over_skyline_deg,set_light_below,set_tune_hz,"
        + "duration_s,receivable_s,margin_db,margin_uncertainty_db,nudges,light,carrier_hz,service,sun_separation_deg,sun_near,moon_separation_deg,moon_near,along_track_up_to_s,"
        + "recording_bytes,free_bytes,recording_fits,take_from_utc,take_to_utc,take_received_s,take_lost_s,advice",
        (await Run(Three(), [.. Evening, "--format", "csv"])).Output.Split('\n')[0]);

    [Fact]
    public async Task Passes_that_overlap_are_shared_and_what_is_lost_is_said()
    {
        JsonElement[] passes = await PassesAsync(Three(), [.. Evening, "--turn", "90s", "--most", "30"]);
        JsonElement[] shared = [.. passes.Where(pass => pass.GetProperty("advice").ValueKind == JsonValueKind.String)];
        Assert.NotEmpty(shared);
        JsonElement[] taken = [.. shared.Where(pass => pass.GetProperty("take_from_utc").ValueKind == JsonValueKind.String).OrderBy(pass => Utc(pass, "take_from_utc"))];
        Assert.All(taken.GroupBy(pass => pass.GetProperty("advice").GetString()), group => Assert.All(group.Zip(group.Skip(1)), pair =>
            Assert.True((Utc(pair.Second, "take_from_utc") - Utc(pair.First, "take_to_utc")).TotalSeconds >= 90)));
        Assert.Contains(shared, pass => Number(pass, "take_lost_s") > 30);
        Assert.All(shared, pass => Assert.Equal(Number(pass, "receivable_s"), Number(pass, "take_received_s") + Number(pass, "take_lost_s"), 12.0)); // margins every 10 s against every second
    }

    // The whole longitudinal Doppler effect, c/(c+v) of a receiver at rest in the frame of the light's speed, by the change of the distance over two seconds.
    [Fact]
    public async Task The_carrier_is_received_higher_at_rise_and_lower_at_set()
    {
        JsonElement[] passes = await PassesAsync(Three(), Evening);
        SatelliteTrack track = new(new Sgp4(Orbit("PETREL 2", 99201, 100, new(2026, 11, 26, 0, 0, 0, TimeSpan.Zero))), Station);
        JsonElement pass = passes.First(one => one.GetProperty("catalog_number").GetInt32() == 99201);
        Assert.Equal(1_701_300_000, Number(pass, "carrier_hz"));
        foreach (string moment in (string[])["rise", "top", "set"])
        {
            DateTimeOffset utc = Utc(pass, moment + "_utc");
            double speed = 1e3 * (track.At(utc.AddSeconds(1))!.Value.RangeKm - track.At(utc.AddSeconds(-1))!.Value.RangeKm) / 2.0;
            Assert.Equal(1_701_300_000 * LightMetresPerSecond / (LightMetresPerSecond + speed), Number(pass, moment + "_tune_hz"), 5.0);
        }

        Assert.InRange(Number(pass, "rise_tune_hz") - 1_701_300_000, 25_000, 45_000);
        Assert.InRange(Number(pass, "set_tune_hz") - 1_701_300_000, -45_000, -25_000);
        Assert.InRange(Math.Abs(Number(pass, "top_tune_hz") - 1_701_300_000), 0, 2_000);
    }

    [Fact]
    public async Task The_compass_differs_by_the_declination_and_the_recording_by_the_length()
    {
        JsonElement[] passes = await PassesAsync(Three(), Evening);
        double declination = Core.Magnetic.WorldMagneticModel.At(Station, new DateTimeOffset(2026, 11, 26, 5, 0, 0, TimeSpan.Zero)).Declination.Degrees;
        Assert.All(passes, pass =>
        {
            Assert.Equal(0.0, Math.IEEERemainder(Number(pass, "rise_azimuth_deg") - Number(pass, "rise_compass_deg") - declination, 360), 1e-3);
            Assert.Equal(3e6 * 4 * (Number(pass, "duration_s") + 120), Number(pass, "recording_bytes"), 3e6);
            Assert.InRange(Number(pass, "rise_over_skyline_deg"), -0.01, 0.01);
            Assert.True(Number(pass, "top_over_skyline_deg") > 5);
        });
        Assert.Equal("qpsk-2333k", passes.First(pass => pass.GetProperty("catalog_number").GetInt32() == 99202).GetProperty("service").GetString());
    }

    /// <summary>Directive 2000/84/EC, articles 2 and 3, and the IANA time zone database: 1 a.m. Greenwich Mean Time on the last Sunday of March and of October.</summary>
    [Theory]
    [InlineData("2026-03-29T01:00:00Z", "+01", "+02")]
    [InlineData("2026-10-25T01:00:00Z", "+02", "+01")]
    public async Task A_pass_over_the_change_of_the_clock_is_told_in_both_times(string change, string before, string after)
    {
        DateTimeOffset instant = DateTimeOffset.Parse(change, CultureInfo.InvariantCulture);
        ElementSet over = Enumerable.Range(0, 12 * 90).Select(k => Orbit("PETREL 2", 99201, 4 * (k % 90), instant) with { RightAscension = Angle.FromDegrees(30 * (k / 90)) }).First(set =>
            PassSearch.Next(new SatelliteTrack(new Sgp4(set), Station), instant.AddMinutes(-30), 0.1, Angle.FromDegrees(5)) is { } pass
            && pass.Aos.Utc < instant.AddMinutes(-3) && pass.Los.Utc > instant.AddMinutes(3) && pass.Tca.Look.Elevation.Degrees > 30);
        CommandRun run = await Run(Elements(over), "--from", change.Replace("01:00", "00:30", StringComparison.Ordinal), "--for", "1h");
        Assert.Equal(0, run.ExitCode);
        Match rise = Row("rise").Match(run.Output);
        Match set = Row("set").Match(run.Output);
        Assert.Equal((before, after), (rise.Groups["offset"].Value, set.Groups["offset"].Value));
        foreach (Match row in (Match[])[rise, set])
        {
            TimeSpan local = TimeSpan.Parse(row.Groups["local"].Value, CultureInfo.InvariantCulture);
            TimeSpan utc = TimeSpan.Parse(row.Groups["utc"].Value, CultureInfo.InvariantCulture);
            Assert.Equal(int.Parse(row.Groups["offset"].Value, CultureInfo.InvariantCulture), (local - utc).TotalHours);
        }
    }

    private static Regex Row(string name) => new($"^  {name} +(?<local>[0-9:]{{8}})(?<offset>[+-][0-9]{{2}})  (?<utc>[0-9:]{{8}}) ", RegexOptions.Multiline | RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1));

    [Theory]
    [InlineData("2026-03-29", "Sun 29 Mar 00:00+01 to Mon 30 Mar 00:00+02")]
    [InlineData("2026-10-25", "Sun 25 Oct 00:00+02 to Mon 26 Oct 00:00+01")]
    public async Task A_date_is_the_day_of_the_place(string date, string span)
    {
        DateTimeOffset epoch = DateTimeOffset.Parse(date + "T00:00:00Z", CultureInfo.InvariantCulture);
        CommandRun run = await Run(Elements(Orbit("PETREL 2", 99201, 100, epoch)), "--date", date);
        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("47.80 north, 11.20 east, 520 m, " + span + "\n", run.Output, StringComparison.Ordinal);
    }

    private async Task<CommandRun> Stored(string text, params string[] args)
    {
        string settings = Path.Combine(_folder.FullName, "settings.toml");
        await File.WriteAllTextAsync(settings, text);
        using StringWriter output = new();
        using StringWriter error = new();
        return new CommandRun(await CommandRoot.RunAsync(args, output, error, settings), output.ToString(), error.ToString());
    }

    private const string Settings =
        """
        [[places]]
        name = "meadow"
        latitude_deg = 47.8
        longitude_deg = 11.2
        altitude_m = 520
        time_zone = "Europe/Berlin"
        skyline = "0:8,90:12,180:6,270:15"
        [[dishes]]
        name = "grid"
        diameter_m = 1.0
        [[favourites]]
        satellite = "PETREL 2"
        [[favourites.downlinks]]
        frequency_mhz = 1701.3
        [[favourites]]
        satellite = 99202
        [[favourites.downlinks]]
        frequency_mhz = 1707.0
        service = "qpsk-2333k"
        [receiver]
        signal = "tcp://127.0.0.1:5020?format=ci16&rate=3Msps"
        [elements]
        file = "elements.tle"

        """;

    [Fact]
    public async Task Of_the_settings_comes_all_that_is_not_said()
    {
        string elements = Three();
        CommandRun stored = await Stored(Settings, "tonight", "--from", "2026-11-26T05:00:00Z");
        CommandRun typed = await Run(
            elements, "--from", "2026-11-26T05:00:00Z", "--satellite", "PETREL 2", "--satellite", "99202", "--downlink", "PETREL 2=1701.3MHz", "--downlink", "99202=1707MHz,qpsk-2333k",
            "--dish", "1.0", "--signal", "tcp://127.0.0.1:5020?format=ci16&rate=3Msps", "--horizon", "0:8,90:12,180:6,270:15");
        Assert.Equal(0, stored.ExitCode);
        Assert.Equal(FreeDisk().Replace(typed.Output, ""), FreeDisk().Replace(stored.Output, ""));
        Assert.DoesNotContain("FENHERON", stored.Output, StringComparison.Ordinal);
        Assert.Contains("1707.0 MHz", (await Stored(Settings, "tonight", "--from", "2026-11-26T05:00:00Z", "--most", "20")).Output, StringComparison.Ordinal);

        // What is said of a downlink goes before all favourites.
        Assert.DoesNotContain("1701.3", (await Stored(Settings, "tonight", "--from", "2026-11-26T05:00:00Z", "--frequency", "1698MHz")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_sheet_has_the_hand_and_the_skyline_of_the_settings()
    {
        Three();
        string sheet = Path.Combine(_folder.FullName, "sheet.html");
        CommandRun run = await Stored(Settings.Replace("diameter_m = 1.0", "diameter_m = 1.0\nmount = \"free\"", StringComparison.Ordinal), "tonight", "--from", "2026-11-26T05:00:00Z", "--page", sheet, "--pass", "2");
        Assert.Equal((0, $"the sheet of pass 2, PETREL 2, is in {sheet}{Environment.NewLine}"), (run.ExitCode, run.Error));
        string page = await File.ReadAllTextAsync(sheet);
        Assert.Contains("as seen from behind the dish", page, StringComparison.Ordinal);
        Assert.Contains("over the skyline", page, StringComparison.Ordinal);
        Assert.Contains("dish 1.0 m", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task With_settings_no_option_is_needed()
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        Elements(Orbit("PETREL 2", 99201, 100, now), Orbit("BRACKWING 7", 99202, 220, now), Orbit("FENHERON 9", 99203, 340, now));
        CommandRun run = await Stored(Settings, "tonight");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.StartsWith("47.80 north, 11.20 east, 520 m, ", run.Output, StringComparison.Ordinal);
        Assert.Matches("(?m)^1 (PETREL 2|BRACKWING 7), ", run.Output);
        Assert.Contains("A recording takes 0.72 GB a minute", run.Output, StringComparison.Ordinal);
    }

    // Three hundred on six ways, so that many passes overlap.
    [Fact]
    public async Task Three_hundred_satellites_make_fewer_than_forty_lines()
    {
        DateTimeOffset epoch = new(2026, 11, 26, 0, 0, 0, TimeSpan.Zero);
        string elements = Elements([.. Enumerable.Range(0, 300).Select(k => Evenings.Orbit($"TERN {k}", 70_000 + k, 7.2 * k % 360, epoch, 60 * (k % 6)))]);
        CommandRun run = await Run(elements, "--from", "2026-11-26T05:00:00Z", "--signal", "tcp://127.0.0.1:5020?format=ci16&rate=3Msps", "--horizon", "0:8,90:12,180:6,270:15");
        Assert.Equal((0, "these are of all 300 satellites of the file; cockpit favourite add NAME keeps those that you follow" + Environment.NewLine), (run.ExitCode, run.Error));
        string[] lines = run.Output.TrimEnd('\n').Split('\n');
        Assert.InRange(lines.Length, 20, 39);
        Assert.All(lines, line => Assert.InRange(line.Length, 1, 80));
        Assert.Contains("more that are worth something", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--date 2026-13-01", "--date: '2026-13-01' is not a date of the years 1957 to 2199; write it like 2026-11-26; see cockpit tonight --help")]
    [InlineData("--date 2026-11-26 --from 2026-11-26T00:00:00Z", "--date: give --date or --from, not both")]
    [InlineData("--pass 2", "--pass: it chooses the pass of the sheet; say where that goes with --page FILE.html")]
    [InlineData("--for 400d", "--for: at most 366d can be searched; elements are not good for longer")]
    [InlineData("--time-zone Nowhere", "--time-zone: 'Nowhere' is no time zone that this computer knows; write it like Europe/Berlin; see cockpit tonight --help")]
    public async Task What_cannot_be_is_said_in_one_sentence(string words, string sentence)
    {
        CommandRun run = await CommandRun.Of(["tonight", "--elements", Three(), "--station", "47.8,11.2,520", .. words.Split(' ')]);
        Assert.Equal((2, "", sentence + Environment.NewLine), (run.ExitCode, run.Output, run.Error));
    }

    [Theory]
    [InlineData("tonight")]
    [InlineData("passes")]
    public async Task A_downlink_of_a_satellite_that_is_not_there_is_told(string command)
    {
        CommandRun run = await CommandRun.Of(command, "--elements", Three(), "--station", "47.8,11.2,520", "--from", "2026-11-26T05:00:00Z", "--downlink", "PETRL 2=1701.3MHz", "--downlink", "FENHERON=1707MHz");
        Assert.Equal((0, "--downlink: 'PETRL 2' is none of the satellites of the file; its downlink is passed over" + Environment.NewLine), (run.ExitCode, run.Error));
    }

    [Fact]
    public async Task An_evening_without_a_pass_says_so()
    {
        CommandRun run = await Run(Three(), "--from", "2026-11-26T05:00:00Z", "--for", "1m");
        Assert.Equal((0, "no pass above 5 degrees in this span; make --for longer or --above lower" + Environment.NewLine), (run.ExitCode, run.Error));
        Assert.Equal("[]\n", (await Run(Three(), "--from", "2026-11-26T05:00:00Z", "--for", "1m", "--format", "json")).Output);
    }
}
