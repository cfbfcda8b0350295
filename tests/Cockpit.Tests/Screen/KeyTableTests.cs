using Cockpit.Screen.Keys;

namespace Cockpit.Tests.Screen;

public sealed class KeyTableTests
{
    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void A_key_has_one_meaning_in_each_mode(bool replay, bool steers)
    {
        string[] keys = [.. KeyTable.For(replay, steers).SelectMany(entry => entry.Keys)];
        Assert.Equal(keys.Length, keys.Distinct(StringComparer.Ordinal).Count());
    }

    [Theory]
    [InlineData("Left", 1.0, -1, 0)]
    [InlineData("Down", 1.0, 0, -1)]
    [InlineData("Shift-Right", 5.0, 1, 0)]
    [InlineData("I", 5.0, 0, 1)]
    [InlineData("K", 5.0, 0, -1)]
    public void In_a_rehearsal_arrows_and_letters_turn_the_dish(string key, double step, int pan, int tilt)
    {
        TurnAction turn = Assert.IsType<TurnAction>(KeyTable.Find(key, replay: false, steers: true)!.Action);
        Assert.Equal(new TurnAction(step, pan, tilt), turn.By(key));
        Assert.Null(KeyTable.Find(key, replay: false));
    }

    [Fact]
    public void An_arrow_with_shift_is_the_arrow_where_it_means_nothing_else() =>
        Assert.Equal(KeyTable.Find("Left", replay: true), KeyTable.Find("Shift-Left", replay: true));

    [Fact]
    public void Every_meaning_has_a_line_of_help_that_fits_the_overlay() =>
        Assert.All(KeyTable.All, entry => Assert.InRange(entry.Help.Length, 3, 18));

    [Fact]
    public void An_operator_key_says_why_it_is_off_in_a_replay() =>
        Assert.Equal("P (peaked) does nothing in a replay: the pass is over and only played again.", KeyTable.WhyNot("P", replay: true));

    [Fact]
    public void The_documentation_gets_the_whole_table() => Golden.Check("keys", KeyTable.ToMarkdown());
}
