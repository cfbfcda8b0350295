using Cockpit.Wiring;

namespace Cockpit.Tests.Wiring;

public sealed class CleanWriterTests
{
    private const string Bad = "a\u001B]0;x\u0007b\u009B\u202Ec";
    private const string Clean = "a\uFFFD]0;x\uFFFDb\uFFFD\uFFFDc";

    [Fact]
    public void Whichever_way_text_is_written_it_is_filtered()
    {
        using StringWriter inner = new();
        CleanWriter writer = new(inner);
        writer.Write(Bad);
        writer.Write(Bad.ToCharArray());
        writer.Write('\u001B');
        writer.WriteLine(Bad);
        writer.Write("{0}", Bad);
        Assert.Equal(Clean + Clean + "\uFFFD" + Clean + "\n" + Clean, inner.ToString().ReplaceLineEndings("\n"));
    }

    [Fact]
    public async Task Whichever_way_text_is_written_without_waiting_it_is_filtered()
    {
        using StringWriter inner = new();
        CleanWriter writer = new(inner);
        await writer.WriteAsync(Bad);
        await writer.WriteLineAsync(Bad);
        await writer.WriteLineAsync(Bad.AsMemory());
        Assert.Equal(Clean + Clean + "\n" + Clean + "\n", inner.ToString().ReplaceLineEndings("\n"));
    }

    [Fact]
    public void Line_ends_and_tabs_stay_and_only_the_bell_of_our_own_rings()
    {
        using StringWriter inner = new();
        CleanWriter writer = new(inner);
        writer.Write("one\r\n\ttwo\n\u0007");
        CleanWriter.Ring(writer);
        CleanWriter.Ring(inner);
        Assert.Equal("one\r\n\ttwo\n\uFFFD\a\a", inner.ToString());
    }
}
