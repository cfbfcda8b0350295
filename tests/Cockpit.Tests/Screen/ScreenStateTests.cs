using Cockpit.Screen.Keys;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Screen;

public sealed class ScreenStateTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void Quit_in_a_pass_wants_a_second_press()
    {
        ScreenState state = Live(Moment.At(200));
        Assert.Null(state.Press("Q"));
        Assert.Contains("Press Q again within 4 s", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        _time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(new QuitAction(AtOnce: false), state.Press("Q"));
    }

    [Fact]
    public void A_second_press_that_comes_late_only_asks_again()
    {
        ScreenState state = Live(Moment.At(200));
        state.Press("Q");
        _time.Advance(TimeSpan.FromSeconds(5));
        Assert.Null(state.Press("Q"));
    }

    [Fact]
    public void Another_key_between_takes_the_first_press_back()
    {
        ScreenState state = Live(Moment.At(200));
        state.Press("Q");
        Assert.Equal(new OperatorAction(OperatorKey.OneKey), state.Press("Space"));
        Assert.Null(state.Press("Q"));
    }

    [Theory]
    [InlineData(-100)]
    [InlineData(820)]
    public void Outside_a_pass_one_press_is_enough(double seconds) =>
        Assert.Equal(new QuitAction(AtOnce: false), Live(Moment.At(seconds)).Press("Q"));

    [Fact]
    public void The_check_stands_until_the_last_minute_and_V_shows_the_sky_in_its_place()
    {
        Snapshot waiting = ScreenStates.Checked(Moment.At(-754, AimWord.Point), ScreenStates.Choice);
        ScreenState state = Live(waiting);
        Assert.Contains(" CHECK ", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        Assert.Null(state.Press("V"));
        Assert.DoesNotContain(" CHECK ", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        ScreenState other = Live(waiting);
        other.Show(ScreenStates.Checked(Moment.At(-30, AimWord.Point), ScreenStates.Choice));
        Assert.DoesNotContain(" CHECK ", other.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_pass_is_chosen_before_it_begins_and_not_in_it()
    {
        ScreenState state = Live(ScreenStates.Checked(Moment.At(-754, AimWord.Point), ScreenStates.Choice));
        Assert.Equal(new ChooseAction(2), state.Press("3"));
        Assert.Null(state.Press("2"));
        Assert.Contains("PETREL 2 is flown already.", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        state.Show(Moment.At(200));
        Assert.Null(state.Press("3"));
        Assert.Contains("choose another pass before it begins", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_review_comes_by_itself_when_the_pass_is_over_and_not_before()
    {
        ScreenState state = Live(Moment.At(200));
        state.ShowReview(ScreenStates.Reviewed);
        Assert.DoesNotContain("REVIEW", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        state.Show(Moment.At(820));
        Assert.Contains("4520 received of 4908", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void V_leaves_the_review_for_the_sky_and_it_stays_away()
    {
        ScreenState state = Live(Moment.At(820));
        state.ShowReview(ScreenStates.Reviewed);
        Assert.Null(state.Press("V"));
        string text = state.Frame(80, 24)!.Text;
        Assert.Contains("from behind", text, StringComparison.Ordinal);
        Assert.DoesNotContain("REVIEW", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_there_is_no_review_V_goes_between_picture_and_sky()
    {
        ScreenState state = Live(Moment.At(820));
        state.Press("V");
        state.Press("V");
        Assert.Contains("SKY", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void In_a_replay_one_press_is_enough()
    {
        ScreenState state = new(Options() with { Replay = true });
        state.Show(Moment.At(200));
        Assert.NotNull(state.Press("Q"));
    }

    [Fact]
    public void Ctrl_C_leaves_at_once() => Assert.Equal(new QuitAction(AtOnce: true), Live(Moment.At(200)).Press("Ctrl-C"));

    [Fact]
    public void A_key_of_the_pass_says_in_a_replay_why_it_does_nothing()
    {
        ScreenState state = new(Options() with { Replay = true });
        state.Show(Moment.At(200));
        Assert.Null(state.Press("P"));
        Assert.Contains("P (peaked) does nothing in a replay", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Plus_and_minus_change_the_rate_of_a_replay_and_the_volume_of_a_pass()
    {
        ScreenState replay = new(Options() with { Replay = true });
        Assert.Equal(new PlayerAction(PlayerVerb.Faster, TimeSpan.Zero), replay.Press("+"));
        Assert.Equal(new PlayerAction(PlayerVerb.Slower, TimeSpan.Zero), replay.Press("-"));
        Assert.Equal(new OperatorAction(OperatorKey.Louder), Live(Moment.At(200)).Press("+"));
        Assert.Null(replay.Press("K"));
    }

    [Fact]
    public void Ctrl_Z_says_why_it_does_nothing()
    {
        ScreenState state = Live(Moment.At(200));
        Assert.Null(state.Press(KeyNames.Suspend));
        Assert.Contains("Ctrl-Z does nothing here", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Space_is_pause_in_a_replay() =>
        Assert.Equal(new PlayerAction(PlayerVerb.Pause, TimeSpan.Zero), new ScreenState(Options() with { Replay = true }).Press("Space"));

    [Fact]
    public void Help_stands_beside_the_aim_and_leaves_it_as_it_is()
    {
        ScreenState state = Live(Moment.At(238, AimWord.Move));
        string[] before = state.Frame(80, 24)!.Text.Split('\n');
        Assert.Null(state.Press("H"));
        string[] after = state.Frame(80, 24)!.Text.Split('\n');
        Assert.Contains("KEYS (H closes)", string.Join('\n', after), StringComparison.Ordinal);
        Assert.Equal(before[..5], after[..5]);
        Assert.Equal(before[5..18].Select(row => row[..25]), after[5..18].Select(row => row[..25]), StringComparer.Ordinal);
        Assert.Equal(before[18..22], after[18..22]);
    }

    [Fact]
    public void The_same_moment_is_not_painted_twice()
    {
        ScreenState state = Live(Moment.At(200));
        Assert.NotNull(state.Frame(80, 24));
        Assert.Null(state.Frame(80, 24));
        Assert.NotNull(state.Frame(100, 30));
        state.Show(Moment.At(201));
        Assert.NotNull(state.Frame(100, 30));
    }

    [Fact]
    public void N_goes_round_the_themes_and_says_which()
    {
        ScreenState state = Live(Moment.At(200));
        string[] names = [.. Enumerable.Range(0, 4).Select(_ =>
        {
            string name = state.Theme.Name;
            state.Press("N");
            return name;
        })];
        Assert.Equal(["dusk", "night", "day", "mono"], names);
        Assert.Contains("Theme dusk", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_colours_the_theme_stays_mono_and_N_says_why()
    {
        ScreenState state = new(Options() with { NoColour = true, Theme = "day" });
        state.Show(Moment.At(200));
        Assert.Equal("mono", state.Theme.Name);
        state.Press("N");
        Assert.Equal("mono", state.Theme.Name);
        Assert.Contains("colours are off", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_theme_is_said_and_replaced()
    {
        ScreenState state = new(Options() with { Theme = "plaid" });
        state.Show(Moment.At(200));
        Assert.Equal("dusk", state.Theme.Name);
        Assert.Contains("There is no theme \"plaid\"; dusk is used.", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_notice_goes_after_four_seconds()
    {
        ScreenState state = Live(Moment.At(200));
        state.Press("N");
        Assert.Contains("Theme night", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
        _time.Advance(TimeSpan.FromSeconds(4.1));
        Assert.DoesNotContain("Theme night", state.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_first_snapshot_the_screen_says_so() =>
        Assert.Contains("Cockpit opens the session.", new ScreenState(Options()).Frame(80, 24)!.Text, StringComparison.Ordinal);

    [Fact]
    public void A_panel_that_fails_is_said_once_and_the_others_go_on()
    {
        Snapshot now = Moment.At(200);
        ScreenState state = new(Options());
        List<string> failures = [];
        state.Failed = failures.Add;
        foreach (double elapsed in new[] { 320.0, 320.1 })
        {
            state.Show(now with { Elapsed = TimeSpan.FromSeconds(elapsed), Aim = now.Aim with { Word = (AimWord)99 } });
            string text = state.Frame(80, 24)!.Text;
            Assert.StartsWith("The panel \"banner\" failed: ", text, StringComparison.Ordinal);
            Assert.Contains("satellite  35", text, StringComparison.Ordinal);
        }

        Assert.Single(failures);
    }

    private ScreenState Live(Snapshot now)
    {
        ScreenState state = new(Options());
        state.Show(now);
        return state;
    }

    private ScreenOptions Options() => new() { Time = _time, NoColour = false, Complaints = TextWriter.Null };
}
