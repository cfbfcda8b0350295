using Cockpit.Screen.Keys;

namespace Cockpit.Tests.Screen;

public sealed class KeyTableTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_key_has_one_meaning_in_each_mode(bool replay)
    {
        string[] keys = [.. KeyTable.For(replay).SelectMany(entry => entry.Keys)];
        Assert.Equal(keys.Length, keys.Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Every_meaning_has_a_line_of_help_that_fits_the_overlay() =>
        Assert.All(KeyTable.All, entry => Assert.InRange(entry.Help.Length, 3, 22));

    [Fact]
    public void An_operator_key_says_why_it_is_off_in_a_replay() =>
        Assert.Equal("P (peaked) does nothing in a replay: the pass is over and only played again.", KeyTable.WhyNot("P", replay: true));

    [Fact]
    public void The_documentation_gets_the_whole_table() => Golden.Check("keys", KeyTable.ToMarkdown());
}
