using BenchmarkDotNet.Attributes;
using Cockpit.Checks;
using Cockpit.Core.Formats.Elements;

namespace Cockpit.Benchmarks;

/// <summary>How fast catalogues of element sets are read.</summary>
[MemoryDiagnoser]
public class ElementReadingBenchmarks
{
    private const int Sets = 2000;
    private readonly string _tle = Repeat(ElementSamples.Tle);
    private readonly string _json = Repeat(ElementSamples.Json);
    private readonly string _xml = Repeat(ElementSamples.Xml);

    /// <summary>Three-line sets.</summary>
    [Benchmark(OperationsPerInvoke = Sets)]
    public int Tle() => Read(_tle);

    /// <summary>JSON, two objects a list.</summary>
    [Benchmark(OperationsPerInvoke = 2 * Sets)]
    public int Json() => Read(_json);

    /// <summary>XML, a document a set.</summary>
    [Benchmark(OperationsPerInvoke = Sets)]
    public int Xml() => Read(_xml);

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        var b = new ElementReadingBenchmarks();
        yield return ("element sets read, TLE", Sets, () => b.Tle());
        yield return ("element sets read, JSON", 2 * Sets, () => b.Json());
        yield return ("element sets read, XML", Sets, () => b.Xml());
    }

    private static string Repeat(string sample) => string.Concat(Enumerable.Repeat(sample, Sets));

    private static int Read(string text) => ElementSets.Read("catalogue", new StringReader(text)).Sets.Length;
}
