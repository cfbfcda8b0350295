using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.Cues;
using Cockpit.Session.Handset;
using Cockpit.Session.State;
using Cockpit.Tests.Screen;

namespace Cockpit.Tests.Session;

public sealed class HandsetTests
{
    [Theory]
    [InlineData(AimWord.Move, "MOVE", true, "RIGHT 1  UP 6")]
    [InlineData(AimWord.Next, "NEXT", true, "THEN RIGHT 1  UP 6")]
    [InlineData(AimWord.Search, "SEARCH", true, "THEN RIGHT 1  UP 6")]
    [InlineData(AimWord.Hold, "HOLD", false, "THEN RIGHT 1  UP 6")]
    [InlineData(AimWord.Point, "WAIT", false, "")]
    [InlineData(AimWord.Done, "OVER", false, "")]
    public void Each_word_of_the_screen_has_its_own_and_only_a_move_has_amounts(AimWord word, string said, bool moves, string text)
    {
        Snapshot now = Free(Moment.At(238, word, right: 3.8, up: 1.2));
        HandsetGuidance shown = Shown(now);
        Assert.Equal((said, text), (shown.Word, shown.Text));
        Assert.Equal(moves, shown is { Right: not null, Up: not null, Total: not null, Arrow: not null });
        if (moves)
        {
            AimError nudge = now.Aim.Nudge!.Value;
            Assert.Equal(nudge.Right.Degrees, shown.Right);
            Assert.Equal(Math.Sqrt((shown.Right!.Value * shown.Right.Value) + (shown.Up!.Value * shown.Up.Value)), shown.Total);
            Assert.Equal(Math.Atan2(shown.Right.Value, shown.Up.Value) * 180.0 / Math.PI, shown.Arrow!.Value, 9);
        }
    }

    [Fact]
    public void The_words_are_in_the_units_of_the_hand_and_the_arrow_in_those_of_the_eye()
    {
        Snapshot now = Moment.At(380, AimWord.Move, highest: 88, right: -4.8, up: 2.5);
        HandMove hand = now.Aim.Nudge!.Value.By(now.Aim.Mount);
        HandsetGuidance shown = Shown(now);
        Assert.Equal(Mount.PanTilt, now.Aim.Mount);
        Assert.StartsWith($"LEFT {Math.Round(-hand.Side.Degrees, MidpointRounding.AwayFromZero)}", shown.Text, StringComparison.Ordinal);
        Assert.True(Math.Abs(hand.Side.Degrees) > 2.0 * Math.Abs(shown.Right!.Value), "overhead the pan turns further than the beam");
    }

    // The page subtracts the angle of its screen: together that is the direction to the right of AxisDirection.
    [Theory]
    [InlineData(0)]
    [InlineData(25)]
    [InlineData(90)]
    [InlineData(-90)]
    [InlineData(-170)]
    public void The_arrow_is_turned_by_the_roll_of_the_phone(double roll)
    {
        AxisDirection axis = new(Angle.Zero, Angle.Zero, Angle.FromDegrees(roll));
        foreach (int screen in new[] { 0, 90, 180, 270 })
        {
            double rightOnPage = HandsetArrow.Of(1, 0, axis.Roll, DeviceAxis.Camera) - 90.0 - screen;
            Assert.Equal(0.0, Angle.FromDegrees(rightOnPage - axis.ArrowRightOnPage(Angle.FromDegrees(screen))!.Value.Degrees).WrappedToHalfTurn().Degrees, 9);
        }
    }

    // By hand: where the arrow has to point, clockwise from the top edge, for a move to the right and one upwards of a phone that is not rolled.
    [Theory]
    [InlineData(DeviceAxis.Camera, 0, 90, 0)]
    [InlineData(DeviceAxis.Camera, 90, 0, 270)]
    [InlineData(DeviceAxis.Screen, 0, 270, 0)]
    [InlineData(DeviceAxis.Screen, 90, 0, 90)]
    [InlineData(DeviceAxis.Top, 33, 90, 0)]
    [InlineData(DeviceAxis.Right, 33, 180, 90)]
    public void The_arrow_points_truly_for_each_way_to_strap_the_phone(DeviceAxis axis, double roll, double right, double up)
    {
        Assert.Equal(right, HandsetArrow.Of(5, 0, Angle.FromDegrees(roll), axis), 9);
        Assert.Equal(up, HandsetArrow.Of(0, 5, Angle.FromDegrees(roll), axis), 9);
        Assert.Equal(axis is DeviceAxis.Top or DeviceAxis.Right, HandsetArrow.IsFlat(axis));
    }

    [Fact]
    public void A_cue_is_counted_once_and_a_word_that_presses_again_is_now()
    {
        Snapshot now = Moment.At(238, AimWord.Move, right: 3.8, up: 1.2);
        HandsetMemory memory = Told(HandsetMemory.Empty, now, Word(8, 0, pressing: false));
        Assert.Equal(("right", 1L, "right eight"), (memory.Cue, memory.CueCount, memory.Say));
        memory = HandsetComputer.Next(memory, now);
        Assert.Equal(("right", 1L), (memory.Cue, memory.CueCount));
        memory = Told(memory, now, Word(8, 0, pressing: true));
        Assert.Equal(("now", 2L, "now right eight"), (memory.Cue, memory.CueCount, memory.Say));
        memory = Told(memory, now, Word(-8, 0, pressing: true));
        Assert.Equal(("left", 3L), (memory.Cue, memory.CueCount));
        memory = Told(memory, now, Word(0, 9, pressing: false));
        Assert.Equal(("up", 4L), (memory.Cue, memory.CueCount));
        memory = Told(memory, now, Word(0, -9, pressing: false), CueTable.ClockTick(1));
        Assert.Equal(("count", 6L, ""), (memory.Cue, memory.CueCount, memory.Say));
        memory = Told(memory, now, CueTable.Warning("recording stopped"), CueTable.Heartbeat);
        Assert.Equal(("alarm", 7L, "recording stopped"), (memory.Cue, memory.CueCount, memory.Say));
    }

    [Fact]
    public void The_ring_is_the_bar_of_the_hold_and_empties_to_the_next_move()
    {
        Snapshot now = Moment.At(209);
        HandsetGuidance shown = Shown(now);
        Assert.Equal((now.Aim.NudgeAt!.Value - now.Utc).TotalSeconds, shown.SecondsLeft!.Value, 6);
        Assert.InRange(shown.Ring!.Value, 0.01, 0.99);
        Assert.Null(Shown(Moment.At(238, AimWord.Move)).Ring);
    }

    [Fact]
    public void The_level_is_told_against_the_expected_and_a_long_note_is_cut()
    {
        HandsetGuidance shown = Shown(Moment.At(209) with { Message = new Message(new string('x', 200), MessageWeight.Caution, Moment.Aos) });
        Assert.Equal("-1.8 dB", shown.Signal);
        Assert.Equal(60, shown.Note.Length);
        Assert.EndsWith("…", shown.Note, StringComparison.Ordinal);
        Snapshot deaf = Moment.At(209);
        Assert.Equal("no signal", Shown(deaf with { Link = deaf.Link with { MeasuredDb = null } }).Signal);
        Assert.True(Shown(deaf with { Link = deaf.Link with { LockLostFor = TimeSpan.FromSeconds(1) } }).Lost);
        Assert.False(Shown(deaf).Lost);
    }

    [Fact]
    public void The_buttons_of_the_pass_are_there_in_the_pass_only()
    {
        Assert.Equal(["peaked", "moved", "notmoved"], Shown(Moment.At(209)).Buttons.ToArray());
        Assert.Empty(Shown(Moment.At(-300, AimWord.Point)).Buttons);
        Assert.Empty(Shown(Moment.At(2000, AimWord.Done)).Buttons);
    }

    private static HandsetGuidance Shown(Snapshot now) => HandsetComputer.Derive(HandsetComputer.Next(HandsetMemory.Empty, now), now, DeviceAxis.Camera);

    private static HandsetMemory Told(HandsetMemory memory, Snapshot now, params ImmutableArray<Cue> cues) =>
        HandsetComputer.Next(memory, now with { Cues = CuePlan.Silence with { Started = cues } });

    private static Snapshot Free(Snapshot now) => now with { Aim = now.Aim with { Mount = Mount.Free } };

    private static Cue Word(double right, double up, bool pressing) =>
        MoveWord.For(new AimError(Angle.FromDegrees(right), Angle.FromDegrees(up), Angle.FromDegrees(right), Angle.FromDegrees(up)), Angle.FromDegrees(15), Mount.Free, pressing)!;
}
