using Cockpit.Core.Aim;
using Cockpit.Session.Computers.Estimate;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>What the guidance depends on besides its own past.</summary>
/// <param name="Scene">The event and its moment.</param>
/// <param name="Estimate">What is known about the dish after the event.</param>
public sealed record GuidanceInput(Scene Scene, EstimateNow Estimate);

/// <summary>What the hand is asked for: hold, nudge, search, peak. Pure; reads no clock.</summary>
/// <remarks>
/// A hold plan says when to nudge and where to. A belief too wide asks for peaking, a lost satellite for a search. Where the
/// dish is, is not decided here.
/// </remarks>
public static class GuidanceComputer
{
    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static GuidanceMemory Next(GuidanceMemory memory, GuidanceInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        GuidanceDraft draft = new(input.Scene.Opens ? GuidanceMemory.Empty : memory, input);
        new GuidanceStep(draft, input).Run();
        return draft.Memory;
    }

    /// <summary>The move that the hand is asked for, or told of; null when none is planned.</summary>
    /// <param name="memory">The memory after an event.</param>
    public static AskedMove? Asked(GuidanceMemory memory)
    {
        ArgumentNullException.ThrowIfNull(memory);
        return memory is { Target: { } target, NudgeAt: { } due } ? new AskedMove(target, due, memory.CalledAt) : null;
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="input">The event and what is known after it.</param>
    public static AimNow Derive(GuidanceMemory memory, GuidanceInput input)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(input);
        Scene scene = input.Scene;
        AimWord word = WordOf(memory, input);
        bool follows = word is not (AimWord.Point or AimWord.Search or AimWord.Done);
        Pointing? dish = word is AimWord.Search or AimWord.Done ? null : input.Estimate.Dish;
        Hold? target = TargetOf(memory, scene, word);
        AimError? error = dish is not null && scene is { InPass: true, Sky.Now: { } look } ? AimErrors.Between(dish, look) : null;
        AimError? nudge = dish is not null && target is not null && scene.InPass
            ? AimErrors.Between(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation)
            : null;
        return new AimNow(
            word,
            dish,
            error,
            nudge,
            target,
            follows ? memory.Current : null,
            follows ? memory.NudgeAt : null,
            input.Estimate.SinceMark,
            scene.Beam.HalfPowerWidth,
            error is { } off ? scene.Beam.LossAt(off.Total) : null,
            memory.PeakAskedAt is not null);
    }

    private static AimWord WordOf(GuidanceMemory memory, GuidanceInput input)
    {
        if (!input.Scene.InPass)
        {
            return input.Scene.Sky?.Phase is PassPhase.Over ? AimWord.Done : AimWord.Point;
        }

        return memory switch
        {
            _ when input.Estimate.IsLost => AimWord.Search,
            { CalledAt: not null } => AimWord.Move,
            _ when memory.PeakAskedAt is not null || input.Estimate.IsWide => AimWord.Peak,
            _ when memory.NudgeAt - input.Scene.Utc <= input.Scene.Session(GuidanceLimits.NoticeBefore) => AimWord.Next,
            _ => AimWord.Hold,
        };
    }

    private static Hold? TargetOf(GuidanceMemory memory, Scene scene, AimWord word) => word switch
    {
        AimWord.Done => null,
        AimWord.Point => scene.HoldAt(scene.Utc),
        AimWord.Search => scene.HoldAt(scene.Utc + scene.Session(GuidanceLimits.HandTime)),
        _ => memory.Target,
    };
}
