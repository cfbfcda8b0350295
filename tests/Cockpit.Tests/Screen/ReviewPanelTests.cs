using Cockpit.Screen.Panels;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Screen;

public sealed class ReviewPanelTests
{
    [Theory]
    [InlineData(20)]
    [InlineData(40)]
    [InlineData(79)]
    [InlineData(200)]
    public void A_wrapped_line_loses_no_word_and_fits(int width)
    {
        const string line = "advice       Something was in the way for a while (38 lines in 1 gap): people, branches; a place with a freer view.";
        string[] parts = [.. ReviewPanel.Wrapped(line, width)];
        string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(words, string.Join(' ', parts).Split(' ', StringSplitOptions.RemoveEmptyEntries));
        Assert.All(parts, part => Assert.True(width <= 26 || part.Length <= width, part));
    }

    [Fact]
    public void A_word_longer_than_the_line_is_cut_and_nothing_hangs() =>
        Assert.Equal(40 * 5 + 9, ReviewPanel.Wrapped("advice       " + new string('x', 203), 40).Sum(part => part.Count(letter => letter is 'x')) + 6);

    [Fact]
    public void One_lost_line_shows_in_its_cell()
    {
        LineState[] states = Enumerable.Repeat(LineState.Received, 5000).ToArray();
        states[2500] = LineState.Lost;
        string strip = ReviewPanel.Of(new ShownReview(["title"], [.. states]), 80, 10).Text.Split('\n')[1];
        Assert.Equal(1, strip.Count(letter => letter is '▇'));
        Assert.Equal(64, strip.Count(letter => letter is '█'));
    }
}
