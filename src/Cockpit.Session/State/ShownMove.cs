namespace Cockpit.Session.State;

/// <summary>A move in whole degrees as it stands on the screen and on the phone, in the units of the hand, with hysteresis so that it does not flicker.</summary>
/// <param name="Word">The word that it belongs to.</param>
/// <param name="Hold">Number of the hold that it leads to; 0 without one.</param>
/// <param name="Side">Sideways, degrees, positive = right.</param>
/// <param name="Lift">Upwards, degrees.</param>
/// <param name="Since">Session time of the last change.</param>
public sealed record ShownMove(AimWord Word, int Hold, int Side, int Lift, TimeSpan Since)
{
    private const double HysteresisDegrees = 1.0;
    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(0.5);

    /// <summary>The move to show now; null where none is known.</summary>
    /// <param name="before">What is shown; null where nothing is.</param>
    /// <param name="aim">What is believed and asked for.</param>
    /// <param name="elapsed">Session time.</param>
    public static ShownMove? Next(ShownMove? before, AimNow aim, TimeSpan elapsed)
    {
        ArgumentNullException.ThrowIfNull(aim);
        if (aim.Nudge is not { } nudge)
        {
            return null;
        }

        int hold = aim.Target?.Number ?? 0;
        HandMove move = nudge.By(aim.Mount);
        double side = move.Side.Degrees;
        double lift = move.Lift.Degrees;
        if (before is null || before.Word != aim.Word || before.Hold != hold || elapsed < before.Since)
        {
            return new ShownMove(aim.Word, hold, Whole(side), Whole(lift), elapsed);
        }

        bool moved = Math.Abs(side - before.Side) >= HysteresisDegrees || Math.Abs(lift - before.Lift) >= HysteresisDegrees;
        return moved && elapsed - before.Since >= Shortest
            ? before with { Side = Whole(side), Lift = Whole(lift), Since = elapsed }
            : before;
    }

    private static int Whole(double degrees) => (int)Math.Round(degrees, MidpointRounding.AwayFromZero);
}
