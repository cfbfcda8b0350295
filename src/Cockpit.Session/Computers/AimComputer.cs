using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>Guidance without a pointing sensor: dead reckoning between marks. Pure; reads no clock.</summary>
/// <remarks>
/// A hold plan says when to nudge and where to. "Peaked" ties the belief to the satellite; called nudges move it, confirmed by
/// key or taken as done after a moment; its spread grows with each. A belief too wide asks for peaking, a level at the floor
/// for a search.
/// </remarks>
public static class AimComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="context">Sky and radio side after the event.</param>
    /// <param name="envelope">The event.</param>
    public static AimMemory Next(AimMemory memory, AimContext context, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(envelope);
        memory = AimWatch.AtTime(AimPlanner.ForPass(memory, context), context);
        return envelope.Event is OperatorPressed pressed ? AimKeys.Press(memory, context, pressed.Key) : memory;
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="context">Sky and radio side after the event.</param>
    public static AimNow Derive(AimMemory memory, AimContext context)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(context);
        Beam beam = AimPlanner.BeamOf(context);
        AimWord word = WordOf(memory, context);
        Pointing? dish = word is AimWord.Search or AimWord.Done ? null : PointingOf(memory, context);
        Hold? target = TargetOf(memory, context, word);
        AimError? error = dish is not null && context.Sky is { Now: { } look } && AimKeys.InPass(context) ? AimErrors.Between(dish, look) : null;
        AimError? nudge = dish is not null && target is not null && AimKeys.InPass(context)
            ? AimErrors.Between(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation)
            : null;
        return new AimNow(
            word,
            dish,
            error,
            nudge,
            target,
            word is AimWord.Point or AimWord.Search or AimWord.Done ? null : memory.Current,
            word is AimWord.Point or AimWord.Search or AimWord.Done ? null : memory.NudgeAt,
            context.Utc - memory.MarkedAt,
            beam.HalfPowerWidth,
            error is { } off ? beam.LossAt(off.Total) : null);
    }

    private static AimWord WordOf(AimMemory memory, AimContext context)
    {
        if (context.Sky?.Phase is PassPhase.Over)
        {
            return AimWord.Done;
        }

        if (!AimKeys.InPass(context))
        {
            return AimWord.Point;
        }

        return memory switch
        {
            { SearchSince: not null } => AimWord.Search,
            { CalledAt: not null } => AimWord.Move,
            _ when AimWatch.MustPeak(memory, context) => AimWord.Peak,
            _ when memory.NudgeAt - context.Utc <= AimRules.NoticeBefore => AimWord.Next,
            _ => AimWord.Hold,
        };
    }

    private static Hold? TargetOf(AimMemory memory, AimContext context, AimWord word) => word switch
    {
        AimWord.Done => null,
        AimWord.Point => AimPlanner.HoldAt(context, context.Utc),
        AimWord.Search => AimPlanner.HoldAt(context, context.Utc + AimRules.HandTime),
        _ => memory.Target,
    };

    private static Pointing? PointingOf(AimMemory memory, AimContext context) => memory.Dish is { } dish
        ? new Pointing(dish.Azimuth, dish.Elevation, Limited(AimPlanner.SpreadAt(dish, context.Utc)), dish.Origin)
        : null;

    private static Angle Limited(Angle spread) => spread.Degrees > 90.0 ? Angle.FromDegrees(90) : spread;
}
