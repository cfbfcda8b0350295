using BenchmarkDotNet.Running;
using Cockpit.Benchmarks;

// "quick": figures in a few seconds; anything else goes to BenchmarkDotNet (try --list flat, or --filter '*').
if (args is ["quick", ..])
{
    Quick.Run(Console.Out);
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
