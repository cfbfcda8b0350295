using Cockpit.Checks;
using Cockpit.Core.Formats.Elements;
using Xunit.Abstractions;

namespace Cockpit.Tests.Formats;

public sealed class ElementMutationTests(ITestOutputHelper output)
{
    [Fact]
    public void Every_sample_is_good_before_it_is_damaged() => Assert.All(
        ElementSamples.All,
        sample => Assert.Empty(ElementSets.Read("sample", new StringReader(sample)).Errors));

    [Fact]
    public void Damaged_files_give_sets_and_mistakes_and_nothing_else()
    {
        var run = new ElementMutations(seed: 502);
        run.Run(2_000);
        long before = GC.GetTotalMemory(forceFullCollection: true);
        run.Run(10_000);
        long growth = GC.GetTotalMemory(forceFullCollection: true) - before;
        output.WriteLine($"{run.Number} inputs, {run.Sets} sets, {run.Mistakes} mistakes, {growth} bytes more");
        Assert.Equal(12_000, run.Number);
        Assert.InRange(run.Sets, 3_000, 12_000 * 8);
        Assert.InRange(run.Mistakes, 3_000, 12_000 * 100);
    }
}
