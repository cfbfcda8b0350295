using BenchmarkDotNet.Attributes;
using Cockpit.Checks;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Benchmarks;

/// <summary>The search for passes: 72 h of six satellites over one station, one core.</summary>
[MemoryDiagnoser]
public class PassSearchBenchmarks
{
    private static readonly DateTimeOffset From = new(2026, 11, 25, 0, 0, 0, TimeSpan.Zero);
    private static readonly HorizonMask Skyline = new(Enumerable.Range(0, 36).Select(k => new HorizonPoint(Angle.FromDegrees(10 * k), Angle.FromDegrees(5 + (k % 4)))));

    private SatelliteTrack[] _tracks = [];

    /// <summary>The invented satellites of the reference tables.</summary>
    [GlobalSetup]
    public void Setup()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "data", "reference");
        var scene = new ReferenceScene(File.ReadAllText(Path.Combine(folder, "satellites.tle")), File.ReadAllText(Path.Combine(folder, "stations.json")));
        _tracks = [.. scene.Satellites.Select(satellite => scene.Track(satellite, "LOWLAND"))];
    }

    /// <summary>Above 5 degrees.</summary>
    [Benchmark(Baseline = true)]
    public int SixSatellitesForThreeDays() => Count(null);

    /// <summary>Above a skyline of 36 points.</summary>
    [Benchmark]
    public int TheSameAboveASkyline() => Count(Skyline);

    /// <summary>Look angles at one instant of each satellite.</summary>
    [Benchmark(OperationsPerInvoke = 6)]
    public double LookAngles() => _tracks.Sum(track => track.At(From)?.Elevation.Radians ?? 0.0);

    private int Count(HorizonMask? horizon) =>
        _tracks.Sum(track => PassSearch.Find(track, From, From.AddHours(72), Angle.FromDegrees(5), horizon).Count());
}
