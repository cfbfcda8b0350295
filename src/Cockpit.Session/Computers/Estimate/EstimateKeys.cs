using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What the operator's keys say about the dish.</summary>
internal sealed class EstimateKeys(EstimateDraft draft, EstimateInput input)
{
    private readonly Scene _scene = input.Scene;

    /// <summary>Folds the key of this event, if it is one.</summary>
    public void Run()
    {
        switch (_scene.Key)
        {
            case OperatorKey.Peaked:
                Peaked();
                break;
            case OperatorKey.Moved:
                Moved();
                break;
            case OperatorKey.NotMoved:
                NotMoved();
                break;
            default:
                break;
        }
    }

    private void Peaked()
    {
        if (!_scene.InPass || _scene.Sky?.Now is not { } look)
        {
            draft.Say("Mark not taken: the satellite is not above the horizon.");
            return;
        }

        if (input.Level is not { IsFresh: true, MeasuredDb: { } level, ShapeDb: { } shape, Quantity: { } quantity })
        {
            Accept();
            draft.Say("Marked without a signal to check it against.");
            return;
        }

        double gain = level - shape;
        double? best = draft.Memory.GainQuantity == quantity ? draft.Memory.GainDb : null;
        bool insists = _scene.Age(draft.Memory.RefusedAt) <= EstimateLimits.InsistWithin;
        if (best - gain > EstimateLimits.RefuseDb && !insists)
        {
            draft.Memory = draft.Memory with { RefusedAt = _scene.Elapsed };
            draft.Say(string.Create(CultureInfo.InvariantCulture, $"Mark not taken: {best - gain:0.0} dB under the best; peak again, or press again at once to insist."));
            return;
        }

        Accept();
        draft.Memory = draft.Memory with
        {
            GainDb = best > gain ? best + (EstimateLimits.GainDownPerMark * (gain - best)) : gain,
            GainQuantity = quantity,
            RefusedAt = null,
            Notice = null,
        };

        void Accept()
        {
            draft.Memory = draft.Memory with { MarkedAt = _scene.Elapsed };
            draft.Mark(look, EstimateLimits.MarkSpread, PointingOrigin.Mark);
        }
    }

    private void Moved()
    {
        bool confirms = _scene.Age(draft.Memory.LastNudge?.CalledAt) <= EstimateLimits.ConfirmWithin;
        if (_scene.Sky?.Phase is PassPhase.Waiting or PassPhase.Ready)
        {
            draft.SetUp();
            draft.Say("Set up at the first hold.");
        }
        else if (draft.Asked is { } asked && (asked.CalledAt is not null || (IsNear(asked) && !confirms)))
        {
            draft.Nudge();
        }
        else if (!confirms)
        {
            draft.Say("Nothing was called: press \"peaked\" when the signal is at its best.");
        }
    }

    private void NotMoved()
    {
        // A move that is only called was never believed, so there is nothing to take back in the belief.
        if (draft.Asked?.CalledAt is not null)
        {
            return;
        }

        if (draft.Memory.LastNudge is null)
        {
            draft.Say("There is no nudge to take back.");
        }
        else
        {
            draft.TakeBack();
        }
    }

    private bool IsNear(AskedMove asked) => asked.DueUtc - _scene.Utc <= _scene.Session(EstimateLimits.AnnouncedBefore);
}
