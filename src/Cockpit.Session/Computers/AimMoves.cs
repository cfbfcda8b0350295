using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Computers;

/// <summary>What changes the belief: a set-up, a mark, a nudge, a nudge taken back, a signal found.</summary>
internal static class AimMoves
{
    /// <summary>The dish was set up at the first hold, or is taken to be where the plan wants it.</summary>
    public static AimMemory SetUp(AimMemory memory, AimContext context) => AimPlanner.HoldAt(context, context.Utc) is { } hold
        ? AimPlanner.StandIn(memory with { Dish = BeliefOf(hold, AimRules.PlanSpread, context, PointingOrigin.Plan), LastNudge = null }, context, hold)
        : memory;

    /// <summary>The dish points at the satellite now.</summary>
    public static AimMemory Mark(AimMemory memory, AimContext context, LookAngles look, double spread, PointingOrigin origin)
    {
        Belief dish = new(look.Azimuth, look.Elevation, AimPlanner.BeamOf(context).HalfPowerWidth * spread, context.Utc, origin);
        return AimPlanner.StandAt(
            memory with { LastNudge = null, SearchSince = null, FoundSince = null, PeakSince = null, PeakAskedAt = null, ShortSince = null },
            context,
            dish);
    }

    /// <summary>The dish was nudged to the target.</summary>
    public static AimMemory Nudge(AimMemory memory, AimContext context)
    {
        if (memory is not { Dish: { } dish, Target: { } target })
        {
            return memory;
        }

        double size = AimErrors.Separation(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation).Radians * AimRules.NudgeShare;
        double before = AimPlanner.SpreadAt(dish, context.Utc).Radians;
        double floor = AimRules.NudgeFloor.Radians;
        Angle spread = AimPlanner.Root((before * before) + (size * size) + (floor * floor));
        PointingOrigin origin = dish.Origin == PointingOrigin.Plan ? PointingOrigin.Plan : PointingOrigin.MarkAndNudges;
        return AimPlanner.StandIn(
            memory with
            {
                Dish = BeliefOf(target, spread, context, origin),
                LastNudge = new LastNudge(memory.CalledAt ?? context.Utc, dish, memory.Current),
                NudgesSinceMark = memory.NudgesSinceMark + 1,
            },
            context,
            target);
    }

    /// <summary>The last nudge, or the one that is called, was not made: the dish is where it was.</summary>
    public static AimMemory TakeBack(AimMemory memory, AimContext context)
    {
        if (memory.CalledAt is not null && memory.Dish is { } still)
        {
            return AimPlanner.StandAt(memory with { CalledAt = null }, context, still);
        }

        return memory.LastNudge is { } last
            ? AimPlanner.StandAt(
                memory with { LastNudge = null, NudgesSinceMark = memory.NudgesSinceMark - 1, Current = last.HoldBefore },
                context,
                last.Before)
            : memory;
    }

    private static Belief BeliefOf(Hold hold, Angle spread, AimContext context, PointingOrigin origin) =>
        new(hold.Azimuth, hold.Elevation, spread, context.Utc, origin);
}
