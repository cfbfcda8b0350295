using Cockpit.Screen.Keys;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Screen;

public sealed class StageTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void Quit_in_a_pass_wants_a_second_press()
    {
        Stage stage = Live(Moment.At(200));
        Assert.Null(stage.Press("Q"));
        Assert.Contains("Press Q again within 4 s", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
        _time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(new QuitCommand(AtOnce: false), stage.Press("Q"));
    }

    [Fact]
    public void A_second_press_that_comes_late_only_asks_again()
    {
        Stage stage = Live(Moment.At(200));
        stage.Press("Q");
        _time.Advance(TimeSpan.FromSeconds(5));
        Assert.Null(stage.Press("Q"));
    }

    [Fact]
    public void Another_key_between_takes_the_first_press_back()
    {
        Stage stage = Live(Moment.At(200));
        stage.Press("Q");
        Assert.Equal(new OperatorCommand(OperatorKey.Moved), stage.Press("Space"));
        Assert.Null(stage.Press("Q"));
    }

    [Theory]
    [InlineData(-100)]
    [InlineData(820)]
    public void Outside_a_pass_one_press_is_enough(double seconds) =>
        Assert.Equal(new QuitCommand(AtOnce: false), Live(Moment.At(seconds)).Press("Q"));

    [Fact]
    public void In_a_replay_one_press_is_enough()
    {
        Stage stage = new(Options() with { Replay = true });
        stage.Show(Moment.At(200));
        Assert.NotNull(stage.Press("Q"));
    }

    [Fact]
    public void Ctrl_C_leaves_at_once() => Assert.Equal(new QuitCommand(AtOnce: true), Live(Moment.At(200)).Press("Ctrl-C"));

    [Fact]
    public void A_key_of_the_pass_says_in_a_replay_why_it_does_nothing()
    {
        Stage stage = new(Options() with { Replay = true });
        stage.Show(Moment.At(200));
        Assert.Null(stage.Press("P"));
        Assert.Contains("P (peaked) does nothing in a replay", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Plus_and_minus_change_the_rate_of_a_replay_and_the_volume_of_a_pass()
    {
        Stage replay = new(Options() with { Replay = true });
        Assert.Equal(new PlayerCommand(PlayerVerb.Faster, TimeSpan.Zero), replay.Press("+"));
        Assert.Equal(new PlayerCommand(PlayerVerb.Slower, TimeSpan.Zero), replay.Press("-"));
        Assert.Equal(new OperatorCommand(OperatorKey.Louder), Live(Moment.At(200)).Press("+"));
        Assert.Null(replay.Press("K"));
    }

    [Fact]
    public void Ctrl_Z_says_why_it_does_nothing()
    {
        Stage stage = Live(Moment.At(200));
        Assert.Null(stage.Press(KeyNames.Suspend));
        Assert.Contains("Ctrl-Z does nothing here", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Space_is_pause_in_a_replay() =>
        Assert.Equal(new PlayerCommand(PlayerVerb.Pause, TimeSpan.Zero), new Stage(Options() with { Replay = true }).Press("Space"));

    [Fact]
    public void Help_stands_beside_the_aim_and_leaves_it_as_it_is()
    {
        Stage stage = Live(Moment.At(238, AimWord.Move));
        string[] before = stage.Frame(80, 24)!.Text.Split('\n');
        Assert.Null(stage.Press("H"));
        string[] after = stage.Frame(80, 24)!.Text.Split('\n');
        Assert.Contains("KEYS (H closes)", string.Join('\n', after), StringComparison.Ordinal);
        Assert.Equal(before[..5], after[..5]);
        Assert.Equal(before[5..18].Select(row => row[..25]), after[5..18].Select(row => row[..25]), StringComparer.Ordinal);
        Assert.Equal(before[18..22], after[18..22]);
    }

    [Fact]
    public void The_same_moment_is_not_painted_twice()
    {
        Stage stage = Live(Moment.At(200));
        Assert.NotNull(stage.Frame(80, 24));
        Assert.Null(stage.Frame(80, 24));
        Assert.NotNull(stage.Frame(100, 30));
        stage.Show(Moment.At(201));
        Assert.NotNull(stage.Frame(100, 30));
    }

    [Fact]
    public void N_goes_round_the_themes_and_says_which()
    {
        Stage stage = Live(Moment.At(200));
        string[] names = [.. Enumerable.Range(0, 4).Select(_ =>
        {
            string name = stage.Theme.Name;
            stage.Press("N");
            return name;
        })];
        Assert.Equal(["dusk", "night", "day", "mono"], names);
        Assert.Contains("Theme dusk", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_colours_the_theme_stays_mono_and_N_says_why()
    {
        Stage stage = new(Options() with { NoColour = true, Theme = "day" });
        stage.Show(Moment.At(200));
        Assert.Equal("mono", stage.Theme.Name);
        stage.Press("N");
        Assert.Equal("mono", stage.Theme.Name);
        Assert.Contains("colours are off", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_theme_is_said_and_replaced()
    {
        Stage stage = new(Options() with { Theme = "plaid" });
        stage.Show(Moment.At(200));
        Assert.Equal("dusk", stage.Theme.Name);
        Assert.Contains("There is no theme \"plaid\"; dusk is used.", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_notice_goes_after_four_seconds()
    {
        Stage stage = Live(Moment.At(200));
        stage.Press("N");
        Assert.Contains("Theme night", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
        _time.Advance(TimeSpan.FromSeconds(4.1));
        Assert.DoesNotContain("Theme night", stage.Frame(80, 24)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_first_snapshot_the_screen_says_so() =>
        Assert.Contains("Cockpit opens the session.", new Stage(Options()).Frame(80, 24)!.Text, StringComparison.Ordinal);

    [Fact]
    public void A_panel_that_fails_is_said_once_and_the_others_go_on()
    {
        Snapshot now = Moment.At(200);
        Stage stage = new(Options());
        List<string> failures = [];
        stage.Failed = failures.Add;
        foreach (double elapsed in new[] { 320.0, 320.1 })
        {
            stage.Show(now with { Elapsed = TimeSpan.FromSeconds(elapsed), Aim = now.Aim with { Word = (AimWord)99 } });
            string text = stage.Frame(80, 24)!.Text;
            Assert.StartsWith("The panel \"command\" failed: ", text, StringComparison.Ordinal);
            Assert.Contains("satellite  35", text, StringComparison.Ordinal);
        }

        Assert.Single(failures);
    }

    private Stage Live(Snapshot now)
    {
        Stage stage = new(Options());
        stage.Show(now);
        return stage;
    }

    private ScreenOptions Options() => new() { Time = _time, NoColour = false, Complaints = TextWriter.Null };
}
