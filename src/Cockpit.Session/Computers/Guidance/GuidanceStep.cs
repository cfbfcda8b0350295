using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>One event of the guidance: what the hand is asked for as time goes on, and what the operator asks for by key.</summary>
internal sealed class GuidanceStep(GuidanceDraft draft, GuidanceInput input)
{
    private readonly Scene _scene = input.Scene;

    private GuidanceMemory Memory
    {
        get => draft.Memory;
        set => draft.Memory = value;
    }

    public void Run()
    {
        bool changed = draft.PlanOnChange();
        if (_scene.Age(Memory.PeakAskedAt) > GuidanceLimits.PeakAskedFor)
        {
            Memory = Memory with { PeakAskedAt = null };
        }

        if (_scene.InPass)
        {
            Memory = Memory with { PeakSince = MustPeak ? Memory.PeakSince ?? _scene.Elapsed : null };
            Call(changed);
        }

        Keys();
    }

    private bool MustPeak => Memory.PeakAskedAt is not null || input.Estimate.IsWide;

    private void Call(bool changed)
    {
        if (input.Estimate.IsLost)
        {
            Memory = Memory with { CalledAt = null, NudgeAt = null };
            return;
        }

        if (changed || Memory.CalledAt is not null || Memory.NudgeAt is not { } due || _scene.Utc < due || _scene.Age(Memory.PeakSince) < GuidanceLimits.PeakAlone)
        {
            return;
        }

        if (_scene.Utc - due <= _scene.Session(GuidanceLimits.PlanHolds))
        {
            Memory = Memory with { CalledAt = _scene.Elapsed };
            return;
        }

        // Called late (after peaking): the plan is made again from now.
        Memory = draft.TargetFrom(_scene.Utc + _scene.Session(GuidanceLimits.HandTime), (Memory.Current?.Number ?? 0) + 1) is { } target
            ? Memory with { CalledAt = _scene.Elapsed, NudgeAt = _scene.Utc, Target = target }
            : Memory with { NudgeAt = null, Target = null };
    }

    private void Keys()
    {
        switch (_scene.Key)
        {
            case OperatorKey.Search:
                Memory = Memory with { PeakAskedAt = Memory.PeakAskedAt is null ? _scene.Elapsed : null };
                break;
            case OperatorKey.Peaked when !_scene.InPass:
                Memory = Memory with { PeakAskedAt = null };
                break;
            case OperatorKey.NotMoved when Memory.CalledAt is not null:
                Memory = Memory with { CalledAt = null };
                draft.Stay();
                break;
            default:
                break;
        }
    }
}
