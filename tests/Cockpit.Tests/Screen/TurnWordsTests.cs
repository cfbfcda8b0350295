using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Screen.Panels;
using Cockpit.Session.State;

namespace Cockpit.Tests.Screen;

public sealed class TurnWordsTests
{
    [Theory]
    [InlineData(OverheadWay.Turn, 126, null, "BIG TURN at 07:00:04, pan right 126: 3 lines lost (wait 8)")]
    [InlineData(OverheadWay.Turn, -126, 21.4, "BIG TURN at 07:00:04, pan left 126: 3 lines lost (wait 8, over the top 21)")]
    [InlineData(OverheadWay.Wait, -142, 12.2, "BIG TURN: WAIT to 07:00:04, pan left 142: 8 lines lost (turn 3, over the top 12)")]
    [InlineData(OverheadWay.OverTheTop, 0.4, 1.2, "OVER THE TOP at 07:00:04, tilt 12, pan stays: 1 line lost (turn 3, wait 8)")]
    [InlineData(OverheadWay.OverTheTop, 9, 1.6, "OVER THE TOP at 07:00:04, tilt 12, then pan right 9: 2 lines lost (turn 3, wait 8)")]
    public void The_way_chosen_comes_first_and_the_lines_of_the_others_behind_it(OverheadWay way, double pan, double? over, string words)
    {
        DateTimeOffset at = new(2026, 11, 25, 7, 0, 4, TimeSpan.Zero);
        Assert.Equal(words, TurnWords.Of(new BigTurn(at, way, Angle.FromDegrees(pan), Angle.FromDegrees(12), 3.2, 7.6, over)));
    }
}
