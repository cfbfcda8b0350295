using Cockpit.Commands;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Commands;

public sealed class ProgressBarTests : IDisposable
{
    private readonly FakeTimeProvider _time = new();
    private readonly StringWriter _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void What_is_over_in_half_a_second_shows_nothing()
    {
        ProgressBar bar = new(_terminal, _time, 30, "satellites");
        bar.Show(10);
        _time.Advance(TimeSpan.FromSeconds(0.4));
        bar.Show(30);
        bar.Clear();
        Assert.Equal("", _terminal.ToString());
    }

    [Fact]
    public void A_long_one_draws_its_line_over_itself_and_takes_it_away()
    {
        ProgressBar bar = new(_terminal, _time, 30000, "satellites");
        _time.Advance(TimeSpan.FromSeconds(1));
        bar.Show(10000);
        bar.Show(10001);
        _time.Advance(TimeSpan.FromSeconds(1));
        bar.Show(15000);
        bar.Show(14000);
        bar.Clear();
        Assert.Equal(
            "\r[##########--------------------]  33 %  10000 of 30000 satellites\r[###############---------------]  50 %  15000 of 30000 satellites\r\u001b[K",
            _terminal.ToString());
    }

    [Fact]
    public void Where_there_is_no_terminal_nothing_is_shown()
    {
        var bar = ProgressBar.OnTerminal(_terminal, _time, 30, "satellites");
        _time.Advance(TimeSpan.FromSeconds(9));
        bar.Show(15);
        bar.Clear();
        Assert.Equal("", _terminal.ToString());
    }
}
