using System.Globalization;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;

namespace Cockpit.Tests.Screen;

public sealed class PageTests
{
    private const string Letters = ".dS?HNMXKPO-tpo+amegicwkq";

    [Theory]
    [InlineData("waiting")]
    [InlineData("check")]
    [InlineData("check-named")]
    [InlineData("ready")]
    [InlineData("hold")]
    [InlineData("next")]
    [InlineData("move")]
    [InlineData("move-overhead")]
    [InlineData("search")]
    [InlineData("stale")]
    [InlineData("feed-lost")]
    [InlineData("journal")]
    [InlineData("sun")]
    [InlineData("big-turn")]
    [InlineData("by-compass")]
    [InlineData("tuned")]
    [InlineData("pairing")]
    [InlineData("over")]
    [InlineData("review")]
    [InlineData("help")]
    [InlineData("quit")]
    [InlineData("replay")]
    [InlineData("replay-help")]
    public void Every_state_looks_like_its_golden(string state)
    {
        foreach ((int width, int height) in new[] { (80, 24), (120, 40), (160, 48) })
        {
            if (width < 160 || state is "move" or "tuned" or "hold" or "help" or "feed-lost")
            {
                Check(state, width, height);
            }
        }
    }

    [Fact]
    public void A_row_less_than_usual_as_inside_tmux_keeps_sky_and_aim()
    {
        foreach (string state in new[] { "move", "replay" })
        {
            Check(state, 80, 23);
        }
    }

    [Theory]
    [InlineData(79, 24)]
    [InlineData(60, 20)]
    [InlineData(40, 12)]
    [InlineData(30, 8)]
    [InlineData(20, 6)]
    public void A_small_terminal_keeps_the_command_in_large_letters(int width, int height)
    {
        foreach (string state in new[] { "next", "feed-lost", "ready" })
        {
            Check(state, width, height);
        }
    }

    [Theory]
    [InlineData(19, 6)]
    [InlineData(40, 5)]
    public void A_tiny_terminal_gets_one_sentence(int width, int height)
    {
        Block page = Compose("move", width, height);
        Assert.Equal(width, page.Width);
        Assert.Equal(height, page.Height);
        string sentence = string.Join(' ', page.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
        Assert.Equal($"terminal is {width}x{height}, Cockpit needs 20x6: enlarge it", sentence);
    }

    internal static Block Compose(string state, int width, int height) =>
        Page.Compose(ScreenStates.Input(state), PageMemory.Empty, width, height).Page;

    private static void Check(string state, int width, int height)
    {
        Block page = Compose(state, width, height);
        string roles = page.RoleMap(role => Letters[(int)role]);
        Golden.Check(string.Create(CultureInfo.InvariantCulture, $"{state}-{width}x{height}"), $"{page.Text}\n\n{roles}");
        Assert.Equal(Enum.GetValues<Role>().Length, Letters.Length);
    }
}
