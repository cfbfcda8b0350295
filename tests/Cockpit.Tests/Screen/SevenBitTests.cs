using System.Text;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Cockpit.Screen.Views;
using Cockpit.Wiring;

namespace Cockpit.Tests.Screen;

public sealed class SevenBitTests
{
    [Theory]
    [InlineData("LC_ALL", "de_DE.UTF-8", true)]
    [InlineData("LANG", "C.utf8", true)]
    [InlineData("LC_ALL", "C", false)]
    [InlineData("LANG", "de_DE.ISO-8859-1", false)]
    [InlineData("HOME", "/utf8", false)]
    public void The_locale_decides_what_is_drawn_with(string name, string value, bool unicode) => Assert.Equal(
        unicode,
        DrawingChoice.ShowsPlots(n => string.Equals(n, name, StringComparison.Ordinal) ? value : n == "LANG" && name == "LC_ALL" ? "C.UTF-8" : null, Encoding.UTF8, isWindows: false));

    [Fact]
    public void The_linux_console_takes_utf8_but_has_no_letters_for_plots()
    {
        static string? Variable(string name) => name switch { "LANG" => "C.UTF-8", "TERM" => "linux", _ => null };
        Assert.True(DrawingChoice.IsUtf8(Variable, Encoding.UTF8, isWindows: false));
        Assert.False(DrawingChoice.ShowsPlots(Variable, Encoding.UTF8, isWindows: false));
    }

    [Theory]
    [InlineData("vt100", false)]
    [InlineData("dumb", false)]
    [InlineData("xterm", true)]
    public void An_old_video_terminal_has_no_letters_for_plots_whatever_the_locale(string terminal, bool unicode) =>
        Assert.Equal(unicode, DrawingChoice.ShowsPlots(name => name == "TERM" ? terminal : "C.UTF-8", Encoding.UTF8, isWindows: false));

    [Theory]
    [InlineData("TERM=xterm-256color", false, false)]
    [InlineData("TERM=screen COLORTERM=truecolor", false, true)]
    [InlineData("TERM=screen.xterm-256color", false, true)]
    [InlineData("TERM=screen-256color TMUX=/tmp/tmux-0/default,1,0", false, false)]
    [InlineData("TERM=xterm-16color", false, true)]
    [InlineData("TERM=eterm-color", false, true)]
    [InlineData("TERM=linux", false, true)]
    [InlineData("TERM=vt100", true, false)]
    [InlineData("TERM=xterm-mono", true, false)]
    [InlineData("TERM=xterm NO_COLOR=1", true, false)]
    [InlineData("TERM=xterm-256color TERM_PROGRAM=Apple_Terminal", false, true)]
    [InlineData("TERM=xterm-256color TERM_PROGRAM=Apple_Terminal COLORTERM=truecolor", false, false)]
    public void The_surroundings_decide_how_many_colours_there_are(string surroundings, bool none, bool sixteen)
    {
        var variables = surroundings.Split(' ').Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => pair[1], StringComparer.Ordinal);
        Assert.Equal(none, ColourChoice.IsNone(variables.GetValueOrDefault));
        Assert.Equal(sixteen, ColourChoice.IsSixteen(variables.GetValueOrDefault));
    }

    [Theory]
    [InlineData(65001, true)]
    [InlineData(437, false)]
    public void Windows_decides_by_its_code_page(int page, bool unicode) =>
        Assert.Equal(unicode, DrawingChoice.ShowsPlots(_ => null, page == 65001 ? Encoding.UTF8 : Encoding.Latin1, isWindows: true));

    [Theory]
    [InlineData("ConsoleWindowClass", false)]
    [InlineData("PseudoConsoleWindow", true)]
    [InlineData(null, true)]
    public void A_classic_console_of_windows_takes_utf8_but_has_no_letters_for_plots(string? window, bool plots)
    {
        Assert.True(DrawingChoice.IsUtf8(_ => null, Encoding.UTF8, isWindows: true));
        Assert.Equal(plots, DrawingChoice.ShowsPlots(_ => null, Encoding.UTF8, isWindows: true, window));
    }

    [Theory]
    [InlineData("move", 80, 24)]
    [InlineData("hold", 80, 24)]
    [InlineData("next", 120, 40)]
    [InlineData("search", 120, 40)]
    [InlineData("check", 80, 24)]
    [InlineData("help", 120, 40)]
    [InlineData("review", 80, 24)]
    [InlineData("replay", 120, 40)]
    public void A_page_in_seven_bits_looks_like_this(string state, int width, int height)
    {
        Block page = Page.Compose(ScreenStates.Input(state) with { SevenBit = true }, PageMemory.Empty, width, height).Page;
        Assert.All(page.Text, sign => Assert.True(sign is '\n' or (>= ' ' and <= '~'), $"{(int)sign:x}"));
        Golden.Check(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"ascii-{state}-{width}x{height}"), page.Text);
    }

    [Fact]
    public void Every_sign_that_a_page_is_drawn_with_has_a_twin()
    {
        string[] states = ["waiting", "check", "ready", "hold", "next", "move", "move-overhead", "search", "stale", "feed-lost", "sun", "big-turn", "by-compass", "over", "review", "help", "quit", "replay", "replay-help"];
        foreach (PageInput input in states.Select(ScreenStates.Input))
        {
            foreach ((int width, int height) in new[] { (80, 24), (120, 40), (40, 10) })
            {
                Block page = Page.Compose(input, PageMemory.Empty, width, height).Page;
                Block plain = SevenBitPage.Of(page);
                Assert.Equal(page.Width, plain.Width);
                Assert.Equal(page.Text.Count(sign => sign == '?'), plain.Text.Count(sign => sign == '?'));
                Assert.Equal(page.RoleMap(Letter), plain.RoleMap(Letter));
            }
        }
    }

    private static char Letter(Role role) => (char)('A' + (int)role);

    [Fact]
    public void What_has_no_twin_is_a_question_mark_in_each_of_its_columns()
    {
        Canvas canvas = new(6, 1);
        canvas.Text(0, 0, "a鳥éz", Role.Plain);
        Assert.Equal("a???z", SevenBitPage.Of(canvas.ToBlock()).Text);
    }

    [Fact]
    public void A_terminal_without_utf8_gets_seven_bits_and_its_own_control_sequences()
    {
        StringWriter terminal = new();
        new SevenBitWriter(terminal).Write("top 64°\u001b[K ±0.3 s\tΩ\n");
        Assert.Equal("top 64 \u001b[K ~0.3 s\t?\n", terminal.ToString());
    }

    [Theory]
    [InlineData('\u2812', '-')]
    [InlineData('\u2847', '|')]
    [InlineData('\u28B8', '|')]
    [InlineData('\u28C0', '_')]
    [InlineData('\u2809', '"')]
    [InlineData('\u28FF', '#')]
    [InlineData('\u2800', ' ')]
    public void A_stroke_of_dots_becomes_the_sign_that_looks_like_it(char braille, char sign) => Assert.Equal(sign, BrailleStrokes.Stroke(braille));
}
