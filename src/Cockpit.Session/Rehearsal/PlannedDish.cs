using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;

namespace Cockpit.Session.Rehearsal;

/// <summary>How the dish of a simulation without a hand moves.</summary>
public enum DishMotion
{
    /// <summary>From hold to hold of the plan, each at its time.</summary>
    Plan = 0,

    /// <summary>It stands where the pass culminates.</summary>
    Still = 1,
}

/// <summary>A dish that nobody steers: it goes by the plan of a pass. Pure.</summary>
/// <param name="plan">The pass and its holds.</param>
/// <param name="motion">How it moves.</param>
public sealed class PlannedDish(SkyPlan plan, DishMotion motion)
{
    /// <summary>Where it points at an instant, UTC: the hold that has begun; at the rise before the first.</summary>
    public (Angle Azimuth, Angle Elevation) At(DateTimeOffset utc)
    {
        DateTimeOffset when = motion == DishMotion.Still ? plan.Pass.Tca.Utc : utc;
        if (plan.Holds.LastOrDefault(h => h.FromUtc <= when) is { } hold)
        {
            SkyPlace stands = hold.Flown();
            return (stands.Azimuth, stands.Elevation);
        }

        LookAngles rise = plan.Pass.Aos.Look;
        return (rise.Azimuth, rise.Elevation);
    }
}
