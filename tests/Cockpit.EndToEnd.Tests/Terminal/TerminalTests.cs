using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>Whatever ends the program, the terminal is as it was: main screen, cursor on, no mouse tracking.</summary>
public sealed class TerminalTests
{
    // xterm control sequences, "CSI ? Pm h" and "CSI ? Pm l": 1049 alternate screen, 25 cursor, 1003 mouse tracking, 1 cursor keys; ESC > keypad.
    private const string AlternateOn = "\x1b[?1049h";
    private const string AlternateOff = "\x1b[?1049l";
    private const string Wiped = "\x1b[0m\x1b[H\x1b[2J";
    private const string CursorOn = "\x1b[?25h";
    private const string CursorOff = "\x1b[?25l";
    private const string MouseOn = "\x1b[?1003h";
    private const string MouseOff = "\x1b[?1003l";
    private const string KeypadNormal = "\x1b[?1l\x1b>";
    private const string Painted = "UTC";

    [TerminalTheory]
    [InlineData("HUP", 129)]
    [InlineData("INT", 130)]
    [InlineData("TERM", 143)]
    public async Task A_signal_closes_the_screen_and_gives_its_exit_code(string signal, int code)
    {
        using TerminalProcess demo = new();
        await demo.UntilAsync(Painted);
        await demo.SignalAsync(signal);
        Assert.Equal(code, await demo.ExitCodeAsync());
        AssertRestored(demo.Seen);
    }

    [TerminalFact]
    public async Task Q_asks_once_in_a_pass_and_leaves_the_second_time()
    {
        using TerminalProcess demo = new();
        await demo.UntilAsync(Painted);
        await demo.TypeAsync("q");
        await demo.UntilAsync("again");
        await demo.TypeAsync("q");
        Assert.Equal(0, await demo.ExitCodeAsync());
        AssertRestored(demo.Seen);
    }

    [TerminalFact]
    public async Task Ctrl_C_leaves_at_once_and_Esc_does_not()
    {
        using TerminalProcess demo = new();
        await demo.UntilAsync(Painted);
        await demo.TypeAsync("\x1b");

        // Right behind Esc a letter would be Alt and that letter.
        await Task.Delay(500);
        await demo.TypeAsync("h");
        await demo.UntilAsync("KEYS");
        await demo.TypeAsync("\x03");
        Assert.Equal(0, await demo.ExitCodeAsync());
        AssertRestored(demo.Seen);
    }

    [TerminalFact]
    public async Task Asked_to_stop_for_a_while_it_goes_on_and_says_so()
    {
        using TerminalProcess demo = new();
        await demo.UntilAsync(Painted);
        await demo.SignalAsync("TSTP");
        await demo.UntilAsync("Ctrl-Z does nothing here");
        Assert.NotEqual('T', await demo.ProcessStateAsync());
        await demo.TypeAsync("q");
        await demo.UntilAsync("again");
        await demo.TypeAsync("q");
        Assert.Equal(0, await demo.ExitCodeAsync());
        AssertRestored(demo.Seen);
    }

    [TerminalFact]
    public async Task Continued_after_a_stop_it_paints_its_whole_page_again()
    {
        using TerminalProcess demo = new();
        await demo.UntilAsync("quit");
        int before = demo.Seen.Length;
        await demo.SignalAsync("CONT");
        await demo.UntilAsync(() => demo.Seen[before..].Contains("quit", StringComparison.Ordinal), "the line of keys, sent again");
        await demo.TypeAsync("\x03");
        Assert.Equal(0, await demo.ExitCodeAsync());
        AssertRestored(demo.Seen);
    }

    [TerminalTheory]
    [InlineData("TERM=xterm-256color NO_COLOR=1")]
    [InlineData("TERM=dumb")]
    public async Task Without_colours_none_is_sent(string environment)
    {
        using TerminalProcess demo = new(environment);
        await demo.UntilAsync(Painted);
        await demo.SignalAsync("TERM");
        Assert.Equal(143, await demo.ExitCodeAsync());

        // ECMA-48 SGR: 30-37, 38, 40-47, 48, 90-97, 100-107 set a colour; 39 and 49 are the terminal's own.
        Assert.DoesNotMatch("\x1b\\[(?:[0-9;]*;)?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;[0-9;]*)?m", demo.Seen);
    }

    private static void AssertRestored(string seen)
    {
        Assert.Contains(AlternateOn, seen, StringComparison.Ordinal);
        Assert.True(Last(seen, AlternateOff) > Last(seen, AlternateOn), "the alternate screen is still there");
        Assert.True(Last(seen, Wiped) < Last(seen, AlternateOff), "the page is not wiped: it stays where there is no alternate screen");
        Assert.DoesNotContain(Painted, seen[Last(seen, Wiped)..Last(seen, AlternateOff)], StringComparison.Ordinal);
        Assert.True(Last(seen, CursorOn) > Last(seen, CursorOff), "the cursor is hidden");
        Assert.True(Last(seen, MouseOff) > Last(seen, MouseOn), "the mouse is still tracked");
        Assert.EndsWith(KeypadNormal, seen, StringComparison.Ordinal);
    }

    private static int Last(string seen, string sequence) => seen.LastIndexOf(sequence, StringComparison.Ordinal);
}
