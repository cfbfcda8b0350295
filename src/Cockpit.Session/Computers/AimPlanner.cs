using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Session.Computers;

/// <summary>Plans the next nudge from the believed direction of the dish.</summary>
internal static class AimPlanner
{
    /// <summary>Samples the pass and forgets what belonged to another one.</summary>
    public static AimMemory ForPass(AimMemory memory, AimContext context)
    {
        if (context is not { Sky.Pass: { } pass, Track: { } track })
        {
            return memory.Pass is null ? memory : AimMemory.Empty with { Notice = memory.Notice };
        }

        return pass == memory.Pass
            ? memory
            : AimMemory.Empty with { Pass = pass, Track = HoldPlan.Sample(track, pass.Aos.Utc, pass.Los.Utc, HoldPlan.Step), Notice = memory.Notice };
    }

    /// <summary>The dish stands in a hold: when is the next nudge, and where does it lead?</summary>
    /// <param name="memory">Belief and pass.</param>
    /// <param name="context">The moment.</param>
    /// <param name="current">The hold that the dish stands in.</param>
    public static AimMemory StandIn(AimMemory memory, AimContext context, Hold current)
    {
        memory = memory with { Current = current, CalledAt = null };
        DateTimeOffset at = current.ToUtc - context.Settings.CueLead;
        at = at < context.Utc ? context.Utc : at;
        return current.ToUtc >= End(memory)
            ? memory with { NudgeAt = null, Target = null }
            : memory with { NudgeAt = at, Target = TargetFrom(memory, context, at + AimRules.HandTime, current.Number + 1) };
    }

    /// <summary>The dish points at a known direction now: how long does the satellite stay within its allowed cap?</summary>
    public static AimMemory StandAt(AimMemory memory, AimContext context, Belief dish)
    {
        Beam beam = BeamOf(context);
        Angle radius = beam.RadiusFor(context.Settings.AllowedLoss);
        DateTimeOffset leaves = context.Utc;
        Angle worst = Angle.Zero;
        foreach (PassMoment moment in memory.Track)
        {
            if (moment.Utc < context.Utc)
            {
                continue;
            }

            Angle off = AimErrors.Separation(dish.Azimuth, dish.Elevation, moment.Look.Azimuth, moment.Look.Elevation);
            if (off > radius)
            {
                break;
            }

            leaves = moment.Utc;
            worst = off > worst ? off : worst;
        }

        int number = memory.Current?.Number ?? HoldAt(context, context.Utc)?.Number ?? 1;
        Hold hold = new(number, context.Utc, leaves, dish.Azimuth, dish.Elevation, beam.LossAt(worst));
        return StandIn(memory with { Dish = dish }, context, hold);
    }

    /// <summary>The longest hold from an instant on; null after the end of the pass.</summary>
    public static Hold? TargetFrom(AimMemory memory, AimContext context, DateTimeOffset from, int number)
    {
        int start = 0;
        while (start < memory.Track.Length && memory.Track[start].Utc < from)
        {
            start++;
        }

        return start < memory.Track.Length
            ? HoldPlan.Longest(memory.Track.AsSpan()[start..], BeamOf(context), context.Settings.AllowedLoss, number)
            : null;
    }

    /// <summary>The hold of the plan of the pass at an instant: the first before it, null after it.</summary>
    public static Hold? HoldAt(AimContext context, DateTimeOffset utc)
    {
        ImmutableArray<Hold> holds = context.Sky?.Holds ?? [];
        return holds.FirstOrDefault(hold => utc < hold.ToUtc);
    }

    /// <summary>The beam of this session's dish.</summary>
    public static Beam BeamOf(AimContext context) => Beam.Of(context.Settings.DishDiameterMetres, context.Settings.Downlink);

    /// <summary>The spread of a belief at a later moment.</summary>
    public static Angle SpreadAt(Belief dish, DateTimeOffset utc)
    {
        double seconds = Math.Max(0.0, (utc - dish.Since).TotalSeconds);
        return Root((dish.Spread.Radians * dish.Spread.Radians) + (AimRules.DriftInOneSecond.Radians * AimRules.DriftInOneSecond.Radians * seconds));
    }

    /// <summary>An angle from its square, in square radians.</summary>
    public static Angle Root(double square) => new(Math.Sqrt(square));

    private static DateTimeOffset End(AimMemory memory) => memory.Track.IsEmpty ? DateTimeOffset.MinValue : memory.Track[^1].Utc;
}
