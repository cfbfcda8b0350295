using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Estimate;
using Cockpit.Session.Computers.Sky;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>The memory while one event is folded, and the plan of the next nudge from the believed direction of the dish.</summary>
internal sealed class GuidanceDraft(GuidanceMemory memory, GuidanceInput input)
{
    private readonly Scene _scene = input.Scene;

    /// <summary>The memory as it stands.</summary>
    public GuidanceMemory Memory { get; set; } = memory;

    private ImmutableArray<PassMoment> Path => _scene.Plan?.Path ?? [];

    /// <summary>Plans again when the believed direction has changed.</summary>
    /// <returns>Whether it has.</returns>
    public bool PlanOnChange()
    {
        if (Memory.Planned == input.Estimate.Change.Number)
        {
            return false;
        }

        Memory = Memory with { Planned = input.Estimate.Change.Number };
        switch (input.Estimate.Change.Kind)
        {
            case BeliefChangeKind.SetUp when _scene.HoldAt(_scene.Utc) is { } hold:
                StandIn(hold);
                break;
            case BeliefChangeKind.Nudged when Memory.Target is { } target:
                Memory = Memory with { Before = Memory.Current };
                StandIn(target);
                break;
            case BeliefChangeKind.TakenBack:
                Memory = Memory with { Current = Memory.Before };
                Stay();
                break;
            default:
                Memory = Memory with { PeakSince = null, PeakAskedAt = null };
                Stay();
                break;
        }

        return true;
    }

    /// <summary>The dish stays where it is believed to be: how long does the satellite stay within its allowed cap?</summary>
    public void Stay()
    {
        if (input.Estimate.Dish is not { } dish)
        {
            return;
        }

        Angle radius = _scene.Beam.RadiusFor(_scene.Settings.AllowedLoss);
        DateTimeOffset leaves = _scene.Utc;
        Angle worst = Angle.Zero;
        foreach (PassMoment moment in Path.AsSpan()[FirstFrom(_scene.Utc)..])
        {
            Angle off = AimErrors.Separation(dish.Azimuth, dish.Elevation, moment.Look.Azimuth, moment.Look.Elevation);
            if (off > radius)
            {
                break;
            }

            leaves = moment.Utc;
            worst = off > worst ? off : worst;
        }

        int number = Memory.Current?.Number ?? _scene.HoldAt(_scene.Utc)?.Number ?? 1;
        StandIn(new Hold(number, _scene.Utc, leaves, dish.Azimuth, dish.Elevation, _scene.Beam.LossAt(worst)));
    }

    /// <summary>The longest hold from an instant on; null after the end of the pass.</summary>
    public Hold? TargetFrom(DateTimeOffset from, int number)
    {
        int start = FirstFrom(from);
        return start < Path.Length ? HoldPlan.Longest(Path.AsSpan()[start..], _scene.Beam, _scene.Settings.AllowedLoss, number) : null;
    }

    /// <summary>The dish stands in a hold: when is the next nudge, and where does it lead?</summary>
    private void StandIn(Hold current)
    {
        DateTimeOffset at = current.ToUtc - _scene.Session(_scene.Settings.CueLead);
        at = at < _scene.Utc ? _scene.Utc : at;
        bool last = Path.IsEmpty || current.ToUtc >= Path[^1].Utc;
        Memory = Memory with
        {
            Current = current,
            CalledAt = null,
            NudgeAt = last ? null : at,
            Target = last ? null : TargetFrom(at + _scene.Session(GuidanceLimits.HandTime), current.Number + 1),
        };
    }

    private int FirstFrom(DateTimeOffset utc)
    {
        int first = 0;
        while (first < Path.Length && Path[first].Utc < utc)
        {
            first++;
        }

        return first;
    }
}
