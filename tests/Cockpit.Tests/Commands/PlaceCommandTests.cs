using Cockpit.Core.Formats.Fixes;

namespace Cockpit.Tests.Commands;

public sealed class PlaceCommandTests : IDisposable
{
    private readonly string _path = Path.GetTempFileName();

    public void Dispose() => File.Delete(_path);

    [Fact]
    public async Task The_station_is_the_middle_one_of_all_places()
    {
        await File.WriteAllLinesAsync(_path, new[] { "4748.9", "4748.1", "4748.0", "4748.2", "4747.0" }.SelectMany((north, second) => new[]
        {
            NmeaSentence.Of($"GPRMC,12000{second},A,{north},N,01112.0,E,0.0,,251126,,,A"),
            NmeaSentence.Of($"GPGGA,12000{second},{north},N,01112.0,E,1,08,0.9,474.6,M,46.9,M,,"),
        }));
        CommandRun run = await CommandRun.Of("place", $"file:{_path}?from=start", "--for", "1s");
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("2026-11-25 12:00:01Z   47.801667    11.200000    521.5 m", run.Output, StringComparison.Ordinal);
        Assert.EndsWith("--station 47.80167,11.20000,522\n", run.Output, StringComparison.Ordinal);
        Assert.Contains("the receiver knows its place", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Damage_is_told_and_no_place_is_a_failure()
    {
        await File.WriteAllTextAsync(_path, "$GPGGA,120000,4748.0,N,01112.0,E,1,08,0.9,474.6,M,46.9,M,,*00\n");
        CommandRun run = await CommandRun.Of("place", $"file:{_path}?from=start", "--for", "1s");
        Assert.Equal((1, ""), (run.ExitCode, run.Output));
        Assert.Contains("it was damaged on its way", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_address_is_refused_with_the_forms()
    {
        CommandRun run = await CommandRun.Of("place", "ntp://host");
        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith("ADDRESS: 'ntp://host' is no address of a receiver of navigation satellites; write gpsd://", run.Error, StringComparison.Ordinal);
    }
}
