using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>The turn of the pan that a pass near the zenith asks for, and the way past it that loses the fewest lines.</summary>
internal static class OverheadTurn
{
    /// <summary>The turn; null for a mount without a pan, a low pass, or one that asks for no big turn.</summary>
    /// <param name="scene">The event that opens the session.</param>
    /// <param name="dish">The belief of the session: its hand, its pass on its clock.</param>
    public static BigTurn? Of(Scene scene, DishEstimate dish)
    {
        if (scene.Plan is not { } plan || scene.Settings.Mount != Mount.PanTilt || plan.Pass.Tca.Look.Elevation.Degrees < GuidanceLimits.OverheadDegrees)
        {
            return null;
        }

        DateTimeOffset zero = scene.Utc - scene.Elapsed;
        OverheadChoice choice = OverheadChooser.Choose(dish, (plan.Pass.Tca.Utc - zero).TotalSeconds, scene.Settings.OverTheTop);
        OverheadCost best = choice.Best;
        double at = best.Plan.Way == OverheadWay.OverTheTop ? choice.Culminates : best.Plan.TurnsAt;
        return Math.Abs(choice.Turn.Pan) < GuidanceLimits.BigTurnDegrees ? null : new BigTurn(
            zero.AddSeconds(at),
            best.Plan.Way,
            Angle.FromDegrees(best.Pan),
            Angle.FromDegrees(best.Tilt),
            choice.Turn.LinesLost,
            choice.Wait.LinesLost,
            choice.Over?.LinesLost);
    }
}
