using System.Diagnostics;
using System.Globalization;
using BenchmarkDotNet.Attributes;
using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Benchmarks;

/// <summary>The belief about the dish and the decision about its next move, ten times a second over five minutes of a pass.</summary>
[MemoryDiagnoser]
public class EstimateBenchmarks
{
    private const int Ticks = 3600;
    private const double First = -60.0;
    private static readonly DateTimeOffset Rise = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private readonly SkyTable _sky;

    /// <summary>Makes the pass.</summary>
    public EstimateBenchmarks()
    {
        CircularPass pass = new(Rise, Angle.FromDegrees(60));
        _sky = SkyTable.Of(pass, Rise, 0.0, pass.Duration.TotalSeconds, look => 4.8 - (20.0 * Math.Log10(look.RangeKm / 1441.8)));
    }

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        EstimateBenchmarks benchmark = new();
        yield return ("ticks of the estimate with the decision", Ticks, () => benchmark.Fly());
    }

    /// <summary>Mean, slow and slowest tick of a pass whose signal comes, goes and is lost, and what they allocate.</summary>
    internal static void PrintTicks(TextWriter output)
    {
        PrintTicks(output, sensor: false);
        PrintTicks(output, sensor: true);
    }

    private static void PrintTicks(TextWriter output, bool sensor)
    {
        EstimateBenchmarks benchmark = new();
        benchmark.Fly();
        benchmark.Fly();
        DishEstimate dish = benchmark.Estimate();
        Steersman steersman = new(dish, new SteeringCost());
        var took = new double[2 * Ticks];
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < took.Length; i++)
        {
            long start = Stopwatch.GetTimestamp();
            if (sensor)
            {
                double noise = Math.Sin(37.0 * i);
                dish.Sense(First + (i / 10.0), new SensorReading(190.0 + (i / 40.0) + noise, 20.0 + (i / 200.0) + noise, 0.0, false));
            }

            Tick(dish, steersman, i, i % 1000 > 700);
            took[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Array.Sort(took);
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{took.Length} ticks of the guidance {(sensor ? "with a sensor" : "by the level alone")}, ms: mean {took.Average():0.000}, 99 % {took[(int)(0.99 * took.Length)]:0.000}, slowest {took[^1]:0.000}; {allocated / (double)took.Length:0.0} bytes a tick, {steersman.Calls} calls"));
    }

    /// <summary>A hand that says "moved" a second and a half after each call.</summary>
    [Benchmark(OperationsPerInvoke = Ticks)]
    public int Fly()
    {
        DishEstimate dish = Estimate();
        Steersman steersman = new(dish, new SteeringCost());
        for (int i = 0; i < Ticks; i++)
        {
            Tick(dish, steersman, i, lost: false);
        }

        return steersman.Calls;
    }

    private static void Tick(DishEstimate dish, Steersman steersman, int i, bool lost)
    {
        double now = First + (i / 10.0);
        dish.Level(LevelKind.SignalToNoise, now < -30.0 || lost ? -3.0 : 7.0 + (3.0 * Math.Sin(i / 90.0)));
        if (dish.Advance(now))
        {
            steersman.Advance();
        }

        if (steersman.Open is { } open && now - open.At >= 1.5)
        {
            steersman.Done();
        }
    }

    private DishEstimate Estimate() => new(new EstimateSetup { Hand = HandModel.Novice, Mount = Mount.PanTilt, BeamWidth = 15.4 }, _sky);
}
