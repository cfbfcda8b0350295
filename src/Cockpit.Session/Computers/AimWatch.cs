using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>What the guidance does by itself as time and level go on.</summary>
internal static class AimWatch
{
    /// <summary>Everything that is due at this moment.</summary>
    public static AimMemory AtTime(AimMemory memory, AimContext context)
    {
        double seconds = memory.Now is { } before ? Math.Clamp((context.Utc - before).TotalSeconds, 0.0, 1.0) : 0.0;
        memory = memory with { Now = context.Utc };
        if (memory.Notice is { } notice && context.Utc - notice.SinceUtc > AimRules.NoticeFor)
        {
            memory = memory with { Notice = null };
        }

        if (memory.GainQuantity is { } tied && context.Link.Quantity is { } quantity && !string.Equals(tied, quantity, StringComparison.Ordinal))
        {
            memory = memory with { GainDb = null, GainQuantity = null };
        }

        if (!AimKeys.InPass(context) || context.Sky is not { Now: { } look })
        {
            return memory;
        }

        memory = memory.Dish is null && memory.SearchSince is null ? AimMoves.SetUp(memory, context) : memory;
        memory = Search(memory, context, look);
        memory = Doubt(FollowGain(memory, context, seconds), context);
        memory = Peak(memory, context, look);
        return Nudges(memory, context);
    }

    /// <summary>Whether the dish is to be peaked: asked for by key, or known too badly.</summary>
    public static bool MustPeak(AimMemory memory, AimContext context) => memory.PeakAskedAt is not null
        || (memory.Dish is { } dish && AimPlanner.SpreadAt(dish, context.Utc) > AimPlanner.BeamOf(context).HalfPowerWidth * AimRules.PeakSpread);

    private static AimMemory Search(AimMemory memory, AimContext context, LookAngles look)
    {
        bool lost = context.Link.NoSignalFor >= AimRules.NoSignalAfter;
        if (memory.SearchSince is null)
        {
            bool risen = context.Sky is { } sky && context.Utc - sky.Pass.Aos.Utc >= AimRules.RiseGrace;
            return lost && risen ? memory with { SearchSince = context.Utc, FoundSince = null, CalledAt = null, NudgeAt = null, LastNudge = null } : memory;
        }

        // A feed that fell silent says nothing about the signal: the search goes on as it was.
        if (!context.Link.Fresh || context.Link.NoSignalFor is not null)
        {
            return memory with { FoundSince = null };
        }

        DateTimeOffset since = memory.FoundSince ?? context.Utc;
        return context.Utc - since >= AimRules.FoundAfter
            ? AimMoves.Mark(memory, context, look, AimRules.DoubtSpread, memory.Dish?.Origin ?? PointingOrigin.Plan)
            : memory with { FoundSince = since };
    }

    /// <summary>The scale follows the level: soon upwards, since nothing adds to a signal; slowly downwards, and only while the dish is well known.</summary>
    private static AimMemory FollowGain(AimMemory memory, AimContext context, double seconds)
    {
        if (memory.GainDb is not { } gain || !context.Link.Fresh || MeanOver(context.Link) is not { } over)
        {
            return memory;
        }

        double unexplained = over + (LossNow(memory, context) ?? 0.0);
        bool known = memory is { SearchSince: null, PeakSince: null, CalledAt: null, Dish: not null };
        double rate = over > 0.0 ? AimRules.GainUpPerSec * over : known && unexplained < 0.0 ? AimRules.GainDownPerSec * unexplained : 0.0;
        return memory with { GainDb = gain + (rate * seconds) };
    }

    private static double? LossNow(AimMemory memory, AimContext context) => memory.Dish is { } dish && context.Sky?.Now is { } look
        ? AimPlanner.BeamOf(context).LossAt(AimErrors.Separation(dish.Azimuth, dish.Elevation, look.Azimuth, look.Elevation)).Value
        : null;

    /// <summary>A level that the believed pointing does not explain means that the belief is wrong.</summary>
    private static AimMemory Doubt(AimMemory memory, AimContext context)
    {
        if (memory is not { Dish: { } dish, SearchSince: null, CalledAt: null } || !context.Link.Fresh
            || MeanOver(context.Link) is not { } over || LossNow(memory, context) is not { } loss)
        {
            return memory with { ShortSince = null };
        }

        if (-over - loss <= AimRules.ShortDb)
        {
            return memory with { ShortSince = null };
        }

        DateTimeOffset since = memory.ShortSince ?? context.Utc;
        bool longAgo = !(context.Utc - memory.MarkedAt < AimRules.DoubtEvery) && context.Utc - dish.Since > AimRules.AssumedAfter;
        Angle doubt = AimPlanner.BeamOf(context).HalfPowerWidth * AimRules.DoubtSpread;
        return longAgo && context.Utc - since >= AimRules.ShortFor && AimPlanner.SpreadAt(dish, context.Utc) < doubt
            ? memory with { Dish = dish with { Spread = doubt, Since = context.Utc }, ShortSince = null }
            : memory with { ShortSince = since };
    }

    /// <summary>Peaking ends when asked for long ago, or when the level is again what a well-pointed dish shows.</summary>
    private static AimMemory Peak(AimMemory memory, AimContext context, LookAngles look)
    {
        memory = context.Utc - memory.PeakAskedAt > AimRules.PeakAskedFor ? memory with { PeakAskedAt = null } : memory;
        if (!MustPeak(memory, context))
        {
            return memory with { PeakSince = null };
        }

        bool regained = memory is { PeakAskedAt: null, GainDb: not null, SearchSince: null, PeakSince: { } since }
            && context.Utc - since >= AimRules.RegainedAfter && context.Link.Fresh && MeanOver(context.Link) >= -AimRules.RegainedDb;
        if (!regained)
        {
            return memory with { PeakSince = memory.PeakSince ?? context.Utc };
        }

        // The level bears the belief out where the belief itself explains it; only else the satellite is the better guess.
        return memory.Dish is { } dish && LossNow(memory, context) <= AimRules.RegainedDb
            ? memory with { Dish = Narrowed(dish, context), PeakSince = null }
            : AimMoves.Mark(memory, context, look, AimRules.RegainedSpread, PointingOrigin.MarkAndNudges);
    }

    private static Belief Narrowed(Belief dish, AimContext context) => dish with
    {
        Spread = AimPlanner.BeamOf(context).HalfPowerWidth * AimRules.RegainedSpread,
        Since = context.Utc,
    };

    private static AimMemory Nudges(AimMemory memory, AimContext context)
    {
        if (memory.CalledAt is { } called)
        {
            return context.Utc - called >= AimRules.AssumedAfter ? AimMoves.Nudge(memory, context) : memory;
        }

        if (memory.SearchSince is not null || memory.NudgeAt is not { } due || context.Utc < due || context.Utc - memory.PeakSince < AimRules.PeakAlone)
        {
            return memory;
        }

        // Called late (after peaking): the plan is made again from now.
        return context.Utc - due <= TimeSpan.FromSeconds(0.5)
            ? memory with { CalledAt = context.Utc }
            : AimPlanner.TargetFrom(memory, context, context.Utc + AimRules.HandTime, (memory.Current?.Number ?? 0) + 1) is { } target
                ? memory with { CalledAt = context.Utc, NudgeAt = context.Utc, Target = target }
                : memory with { NudgeAt = null, Target = null };
    }

    /// <summary>Measured minus expected for a well-pointed dish over the last two seconds, dB; null when unknown.</summary>
    private static double? MeanOver(LinkNow link)
    {
        if (link.History.Length < 4)
        {
            return null;
        }

        double sum = 0.0;
        int count = 0;
        foreach (LevelPoint point in link.History.AsSpan()[^4..])
        {
            if (point is { MeasuredDb: { } measured, ExpectedDb: { } expected })
            {
                sum += measured - expected;
                count++;
            }
        }

        return count >= 3 ? sum / count : null;
    }
}
