using Cockpit.Session.State;
using Cockpit.Tests.Cues;
using Cockpit.Wiring;

namespace Cockpit.Tests.Wiring;

public sealed class PlainLinesTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 17, 48, 0, TimeSpan.Zero);
    private readonly StringWriter _output = new();

    public void Dispose() => _output.Dispose();

    [Fact]
    public void A_warning_that_came_and_went_between_two_lines_is_said_all_the_same()
    {
        PlainLines lines = new(_output);
        Show(lines, 0.0, null, MessageWeight.Advisory);
        Show(lines, 0.1, "the file was removed", MessageWeight.Warning);
        Show(lines, 0.9, "recording again", MessageWeight.Advisory);
        Show(lines, 1.0, "recording again", MessageWeight.Advisory);
        Show(lines, 2.0, "recording again", MessageWeight.Advisory);

        string[] said = _output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(4, said.Length);
        Assert.Equal("17:48:00Z the file was removed", said[1]);
        Assert.EndsWith("| recording again", said[2], StringComparison.Ordinal);
    }

    [Fact]
    public void A_warning_that_stands_in_a_line_is_not_said_twice()
    {
        PlainLines lines = new(_output);
        Show(lines, 0.5, "the file was removed", MessageWeight.Warning);
        Show(lines, 0.8, "the file was removed", MessageWeight.Warning);
        Show(lines, 1.0, "recording again", MessageWeight.Advisory);

        string[] said = _output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, said.Length);
        Assert.EndsWith("| the file was removed", said[0], StringComparison.Ordinal);
        Assert.EndsWith("| recording again", said[1], StringComparison.Ordinal);
    }

    private static void Show(PlainLines lines, double seconds, string? text, MessageWeight weight)
    {
        DateTimeOffset now = Start.AddSeconds(seconds);
        lines.Show(new PassStage(0).Snapshot with { Utc = now, Message = text is null ? null : new Message(text, weight, now) });
    }
}
