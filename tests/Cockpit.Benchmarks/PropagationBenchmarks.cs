using BenchmarkDotNet.Attributes;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Benchmarks;

/// <summary>How fast one element set is propagated to many instants of three days.</summary>
[MemoryDiagnoser]
public class PropagationBenchmarks
{
    private const int Instants = 4096;
    private const int Repeats = 100;
    private readonly double[] _minutes = [.. Enumerable.Range(0, Instants).Select(k => k * (4320.0 / Instants))];
    private readonly TemeState[] _states = new TemeState[Instants];
    private readonly PropagationStatus[] _statuses = new PropagationStatus[Instants];
    private readonly Sgp4 _low = Of("SYN01 SSO");
    private readonly Sgp4 _high = Of("SYN06 GPS DEEP");
    private readonly Sgp4 _resonant = Of("SYN05 MOLNIYA65 DEEP");

    /// <summary>A weather satellite's orbit, one instant after the other.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Instants)]
    public void NearEarthScalar() => OneByOne(_low);

    /// <summary>The same by the batch form.</summary>
    [Benchmark(OperationsPerInvoke = Instants)]
    public void NearEarthBatch() => _low.Propagate(_minutes, _states, _statuses);

    /// <summary>Sun and moon, no resonance.</summary>
    [Benchmark(OperationsPerInvoke = Instants)]
    public void DeepSpaceScalar() => OneByOne(_high);

    /// <summary>The half-day resonance, integrated from the epoch each time.</summary>
    [Benchmark(OperationsPerInvoke = Instants)]
    public void ResonantScalar() => OneByOne(_resonant);

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        var b = new PropagationBenchmarks();
        yield return Many("propagations, near earth, one by one", b.NearEarthScalar);
        yield return Many("propagations, near earth, batch", b.NearEarthBatch);
        yield return Many("propagations, deep space, one by one", b.DeepSpaceScalar);
        yield return Many("propagations, resonant, one by one", b.ResonantScalar);
    }

    private static (string Name, int Operations, Action Work) Many(string name, Action once) => (name, Instants * Repeats, () =>
    {
        for (int k = 0; k < Repeats; k++)
        {
            once();
        }
    });

    private static Sgp4 Of(string name)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "data", "reference", "01_sgp4", "synth_elements.tle");
        using var reader = new StreamReader(path);
        return new Sgp4(ElementSets.Read(path, reader).Sets.Single(set => set.Name.Equals(name, StringComparison.Ordinal)));
    }

    private void OneByOne(Sgp4 sgp4)
    {
        for (int k = 0; k < _minutes.Length; k++)
        {
            _statuses[k] = sgp4.Propagate(_minutes[k], out _states[k]);
        }
    }
}
