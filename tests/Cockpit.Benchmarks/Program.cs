using System.Globalization;
using BenchmarkDotNet.Running;
using Cockpit.Benchmarks;

// "quick": figures in a few seconds; "ticks": the longest ticks of the guidance; "evening": the passes of 300 satellites; "meter": the meter and its locks against real time; "catalogue N": invented element sets to measure with; "size FOLDER": how large the source is; anything else
// goes to BenchmarkDotNet (try --list flat, or --filter '*').
switch (args)
{
    case ["quick", ..]:
        Quick.Run(Console.Out);
        return;
    case ["ticks", ..]:
        EstimateBenchmarks.PrintTicks(Console.Out);
        return;
    case ["evening", ..]:
        EveningBenchmarks.Print(Console.Out);
        return;
    case ["meter", ..]:
        MeterBenchmarks.Run(Console.Out);
        return;
    case ["catalogue", var count]:
        InventedCatalogue.Write(Console.Out, int.Parse(count, CultureInfo.InvariantCulture));
        return;
    case ["size", var folder]:
        SourceSize.Print(Console.Out, folder);
        return;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(SourceSize).Assembly).Run(args);
        return;
}
