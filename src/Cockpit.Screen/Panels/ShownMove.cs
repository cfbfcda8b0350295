using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>A move in whole degrees as it stands on the screen, with hysteresis so that it does not flicker.</summary>
/// <param name="Word">The word that it belongs to.</param>
/// <param name="Hold">Number of the hold that it leads to; 0 without one.</param>
/// <param name="Pan">The sideways number is the pan of the tripod head, not degrees on the sky.</param>
/// <param name="Side">Sideways, degrees, positive = right.</param>
/// <param name="Lift">Upwards, degrees.</param>
/// <param name="Since">Session time of the last change.</param>
internal sealed record ShownMove(AimWord Word, int Hold, bool Pan, int Side, int Lift, TimeSpan Since)
{
    // Overhead a small sideways move on the sky is a large turn of the head; from here on the head's angle is said.
    private const double PanAboveDegrees = 70.0;
    private const double PanUntilDegrees = 68.0;
    private const double HysteresisDegrees = 1.0;
    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(0.5);

    /// <summary>The move to show now; null where none is known.</summary>
    public static ShownMove? Next(ShownMove? before, AimNow aim, TimeSpan elapsed)
    {
        if (aim.Nudge is not { } nudge)
        {
            return null;
        }

        int hold = aim.Target?.Number ?? 0;
        bool fresh = before is null || before.Word != aim.Word || before.Hold != hold || elapsed < before.Since;
        double elevation = Math.Max(aim.Dish?.Elevation.Degrees ?? 0.0, aim.Target?.Elevation.Degrees ?? 0.0);
        bool pan = elevation > (before is { Pan: true } && !fresh ? PanUntilDegrees : PanAboveDegrees);
        double side = pan ? nudge.Pan.Degrees : nudge.Right.Degrees;
        double lift = pan ? nudge.Tilt.Degrees : nudge.Up.Degrees;
        if (fresh || before is null || before.Pan != pan)
        {
            return new ShownMove(aim.Word, hold, pan, Whole(side), Whole(lift), elapsed);
        }

        bool moved = Math.Abs(side - before.Side) >= HysteresisDegrees || Math.Abs(lift - before.Lift) >= HysteresisDegrees;
        return moved && elapsed - before.Since >= Shortest
            ? before with { Side = Whole(side), Lift = Whole(lift), Since = elapsed }
            : before;
    }

    private static int Whole(double degrees) => (int)Math.Round(degrees, MidpointRounding.AwayFromZero);
}
