using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using BenchmarkDotNet.Attributes;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Benchmarks;

/// <summary>The passes of 300 invented satellites in 24 hours: searched, judged, the four best shared out.</summary>
[MemoryDiagnoser]
public class EveningBenchmarks
{
    private const int Satellites = 300;
    private const int Best = 4;
    private const int Rounds = 9;

    private static readonly Site Station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);
    private static readonly DateTimeOffset From = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
    private static readonly PassQuestion Question = new(Station, From, From.AddHours(24), Angle.FromDegrees(5), null, 0.0, Refraction: false);
    private static readonly VerdictSettings Settings = new() { Site = Station };

    private readonly ImmutableArray<Sgp4> _satellites = [.. InventedCatalogue.Sets(Satellites).Select(set => new Sgp4(set))];

    /// <summary>What cockpit tonight works out; all cores.</summary>
    [Benchmark]
    public int WholeEvening()
    {
        PassesAhead ahead = PassPlanner.Find(_satellites, Question, Settings, []).Value ?? throw new InvalidOperationException("too many passes");
        return Evening.Of(ahead, Question, Settings, Best, SharedDish.UsualTurn).Passes.Length + ahead.Weak;
    }

    /// <summary>Processor time and time, the median of the rounds after the code is warm.</summary>
    internal static void Print(TextWriter output)
    {
        EveningBenchmarks it = new();
        it.WholeEvening();
        var rounds = new (double Processor, double Wall)[Rounds];
        using var self = Process.GetCurrentProcess();
        for (int k = 0; k < Rounds; k++)
        {
            self.Refresh();
            TimeSpan before = self.TotalProcessorTime;
            long start = Stopwatch.GetTimestamp();
            it.WholeEvening();
            TimeSpan wall = Stopwatch.GetElapsedTime(start);
            self.Refresh();
            rounds[k] = ((self.TotalProcessorTime - before).TotalSeconds, wall.TotalSeconds);
        }

        double Median(Func<(double Processor, double Wall), double> of) => rounds.Select(of).Order().ElementAt(Rounds / 2);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Satellites} satellites, 24 h: {Median(round => round.Processor):0.000} s of processor, {Median(round => round.Wall):0.000} s on {Environment.ProcessorCount} cores"));
    }
}
