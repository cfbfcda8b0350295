using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Benchmarks;

/// <summary>The hold plan of an overhead pass of 784 s, sampled every half second, allowed loss 0.5 dB.</summary>
[MemoryDiagnoser]
public class HoldPlanBenchmarks
{
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private static readonly Beam Beam = Beam.Of(0.8, Frequency.FromMegahertz(1700));

    private readonly ImmutableArray<PassMoment> _track = Track();

    /// <summary>The whole pass.</summary>
    [Benchmark]
    public int WholePass() => HoldPlan.Make(_track.AsSpan(), Beam, new Decibels(0.5)).Length;

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        const int Plans = 200;
        HoldPlanBenchmarks benchmarks = new();
        yield return ("hold plan of an overhead pass, 1568 samples", Plans, () =>
        {
            for (int i = 0; i < Plans; i++)
            {
                benchmarks.WholePass();
            }
        });
    }

    private static ImmutableArray<PassMoment> Track()
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(88));
        return HoldPlan.Sample(pass, Aos, Aos + pass.Duration, HoldPlan.Step);
    }
}
