using Cockpit.Devices.Journal;
using Cockpit.Screen.Keys;
using Cockpit.Session.Review;
using Cockpit.Wiring;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Wiring;

public sealed class ReplayDeskTests : IDisposable
{
    private static readonly Recording Sample = Read();

    private readonly List<string> _said = [];
    private readonly Player _player = new(Sample.Envelopes, new FakeTimeProvider(), _ => { }, () => { });
    private readonly ReplayDesk _desk;

    public ReplayDeskTests() => _desk = new ReplayDesk(_player, new JumpSilence(), _said.Add);

    public void Dispose() => _player.Dispose();

    private static Recording Read() =>
        Recording.ReadAll(Path.Combine(Repository.Root, "sessions", "sample-petrel-2")).Try(out Recording? recording, out _) ? recording : throw new InvalidOperationException();

    private static Milestone At(double seconds, MilestoneKind kind, string words) => new(TimeSpan.FromSeconds(seconds), TimeSpan.FromSeconds(seconds), kind, words);

    private void Press(PlayerVerb verb) => _desk.OnKey(new PlayerAction(verb, TimeSpan.Zero));

    [Fact]
    public void Up_goes_to_the_next_one_and_says_what_it_is_and_Down_comes_back()
    {
        _desk.Take([At(5, MilestoneKind.Mark, "marked: peaked"), At(12, MilestoneKind.Gap, "gap: 4 lines")]);
        Press(PlayerVerb.Next);
        Press(PlayerVerb.Next);
        Assert.Equal(12.0, _player.Position.TotalSeconds);
        Press(PlayerVerb.Previous);
        Assert.Equal(5.0, _player.Position.TotalSeconds);
        Assert.Equal(["marked: peaked", "gap: 4 lines", "marked: peaked"], _said);
    }

    [Fact]
    public void F_chooses_which_and_comes_round_to_all()
    {
        _desk.Take([At(5, MilestoneKind.Mark, "a mark"), At(12, MilestoneKind.Gap, "a gap")]);
        Press(PlayerVerb.Which);
        Press(PlayerVerb.Which);
        Press(PlayerVerb.Which);
        Assert.Equal(MilestoneKind.Gap, _desk.Now.Only);
        Press(PlayerVerb.Next);
        Assert.Equal(12.0, _player.Position.TotalSeconds);
        Press(PlayerVerb.Which);
        Press(PlayerVerb.Which);
        Assert.Null(_desk.Now.Only);
    }

    [Fact]
    public void Where_nothing_is_left_to_jump_to_it_stays_and_says_so()
    {
        _desk.Take([At(5, MilestoneKind.Mark, "a mark")]);
        Press(PlayerVerb.Previous);
        Assert.Equal(0.0, _player.Position.TotalSeconds);
        Assert.Equal(["There is no earlier one (all)."], _said);
    }

    [Fact]
    public void Before_the_session_was_looked_through_it_asks_to_wait()
    {
        Press(PlayerVerb.Next);
        Assert.Null(_desk.Now.Stops);
        Assert.Contains("in a moment", Assert.Single(_said), StringComparison.Ordinal);
    }
}
