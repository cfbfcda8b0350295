using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Tests;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>A pass of the past on the screen: the sample session of the repository.</summary>
public sealed class ReplayOnScreenTests
{
    private static string Sample => Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    [TerminalFact]
    public async Task Space_stops_the_replay_and_lets_it_go_on()
    {
        await using Operator person = Operator.At(120, 40, "replay", Sample);
        await person.SeesAsync("REPLAY x1");
        await person.PressesAsync("Space");
        await person.SeesAsync("REPLAY paused");
        await person.PressesAsync("Space");
        await person.SeesAsync("REPLAY x1");
        Assert.Equal(0, await person.LeavesAsync());
    }

    [TerminalFact]
    public async Task Plus_doubles_the_rate_and_minus_halves_it()
    {
        await using Operator person = Operator.At(120, 40, "replay", Sample);
        await person.SeesAsync("REPLAY x1");
        await person.PressesAsync("+");
        await person.SeesAsync("REPLAY x2");
        await person.PressesAsync("-");
        await person.SeesAsync("REPLAY x1");
        await person.PressesAsync("-");
        await person.SeesAsync("REPLAY x0.5");
        Assert.Equal(0, await person.LeavesAsync());
    }

    [TerminalFact]
    public async Task The_arrows_and_Home_and_End_move_in_time()
    {
        await using Operator person = Operator.At(120, 40, "replay", Sample);
        await person.SeesAsync("REPLAY x1");
        await person.PressesAsync("Space");
        await person.SeesAsync("REPLAY paused");
        await person.PressesAsync("Right");
        await person.PressesAsync("Right");
        await person.SeesAsync("‖ 00:2");
        await person.PressesAsync("End");
        await person.SeesAsync("‖ 00:41 of 00:41");
        await person.PressesAsync("Home");
        await person.SeesAsync("‖ 00:00");
        Assert.Equal(0, await person.LeavesAsync());
    }

    [TerminalFact]
    public async Task Up_jumps_to_what_the_time_line_shows_and_says_what_it_is()
    {
        await using Operator person = Operator.At(120, 40, "replay", Sample);
        await person.SeesAsync(" all 8 ");
        await person.PressesAsync("Space");
        await person.SeesAsync("REPLAY paused");
        await person.PressesAsync("f");
        await person.PressesAsync("f");
        await person.PressesAsync("f");
        await person.SeesAsync("Up and Down go to gaps.");
        await person.PressesAsync("Up");
        await person.SeesAsync("gap: ");
        await person.PressesAsync("End");
        await person.PressesAsync("Up");
        await person.SeesAsync("There is no later one (gaps).");
        Assert.Equal(0, await person.LeavesAsync());
    }

    [TerminalFact]
    public async Task A_key_of_the_pass_says_why_it_does_nothing_and_Q_leaves_at_the_first_press()
    {
        await using Operator person = Operator.At(120, 40, "replay", Sample);
        await person.SeesAsync("REPLAY x1");
        await person.PressesAsync("p");
        await person.SeesAsync("P (peaked) does nothing in a replay");
        await person.PressesAsync("q");
        Assert.Equal(0, await person.SeesTheEndAsync());
    }
}
