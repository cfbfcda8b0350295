using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The turn overhead in one line: the way chosen, when, how far, what it loses, and what the others would.</summary>
internal static class TurnWords
{
    private const double LeastDegrees = 1.0;

    public static string Of(BigTurn turn)
    {
        string at = Figures.Clock(turn.AtUtc);
        return turn.Way switch
        {
            OverheadWay.Wait => $"BIG TURN: WAIT to {at}, pan {Pan(turn.Pan)}: {Lost(turn.WaitLines)} (turn {Count(turn.TurnLines)}{Over(turn)})",
            OverheadWay.OverTheTop => $"OVER THE TOP at {at}, tilt {Count(Math.Abs(turn.Tilt.Degrees))}, {Rest(turn.Pan)}: {Lost(turn.OverLines ?? 0.0)} (turn {Count(turn.TurnLines)}, wait {Count(turn.WaitLines)})",
            _ => $"BIG TURN at {at}, pan {Pan(turn.Pan)}: {Lost(turn.TurnLines)} (wait {Count(turn.WaitLines)}{Over(turn)})",
        };
    }

    private static string Over(BigTurn turn) => turn.OverLines is { } lines ? $", over the top {Count(lines)}" : "";

    private static string Rest(Angle pan) => Math.Abs(pan.Degrees) < LeastDegrees ? "pan stays" : $"then pan {Pan(pan)}";

    private static string Pan(Angle pan) => $"{(pan < Angle.Zero ? "left" : "right")} {Count(Math.Abs(pan.Degrees))}";

    private static string Lost(double lines) => Count(lines) is var count && string.Equals(count, "1", StringComparison.Ordinal) ? "1 line lost" : $"{count} lines lost";

    private static string Count(double value) => value.ToString("0", CultureInfo.InvariantCulture);
}
