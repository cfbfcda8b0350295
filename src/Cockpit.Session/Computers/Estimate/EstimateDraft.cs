using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>The memory while one event is folded, with everything that can change the belief: a set-up, a mark, a nudge, a nudge taken back.</summary>
internal sealed class EstimateDraft(EstimateMemory memory, EstimateInput input)
{
    private readonly Scene _scene = input.Scene;

    /// <summary>The memory as it stands.</summary>
    public EstimateMemory Memory { get; set; } = memory;

    /// <summary>The move that the hand is asked for; null once it is taken as done.</summary>
    public AskedMove? Asked { get; private set; } = input.Asked;

    /// <summary>Half-power width of the dish.</summary>
    public Angle BeamWidth => _scene.Beam.HalfPowerWidth;

    /// <summary>Spread of the belief now; null when nothing is known.</summary>
    public Angle? Spread => Memory.Dish is { } dish ? SpreadAt(dish, _scene) : null;

    /// <summary>Loss by the believed pointing now, dB; null when unknown.</summary>
    public double? LossDb => Memory.Dish is { } dish && _scene.Sky?.Now is { } look
        ? _scene.Beam.LossAt(AimErrors.Separation(dish.Azimuth, dish.Elevation, look.Azimuth, look.Elevation)).Value
        : null;

    /// <summary>The spread of a belief at a later moment.</summary>
    public static Angle SpreadAt(Belief dish, Scene scene)
    {
        double seconds = Math.Max(0.0, scene.Age(dish.Since)?.TotalSeconds ?? 0.0);
        double drift = EstimateLimits.DriftInOneSecond.Radians;
        return Root((dish.Spread.Radians * dish.Spread.Radians) + (drift * drift * seconds));
    }

    /// <summary>The dish was set up at the first hold, or is taken to be where the plan wants it.</summary>
    public void SetUp()
    {
        if (_scene.HoldAt(_scene.Utc) is { } hold)
        {
            Memory = Memory with { LastNudge = null };
            Stand(BeliefIn(hold, EstimateLimits.PlanSpread, PointingOrigin.Plan), BeliefChangeKind.SetUp);
        }
    }

    /// <summary>The dish points at the satellite now.</summary>
    /// <param name="look">Where that is.</param>
    /// <param name="spread">How well that is known, beamwidths.</param>
    /// <param name="origin">Where the knowledge comes from.</param>
    public void Mark(LookAngles look, double spread, PointingOrigin origin)
    {
        Memory = Memory with { LastNudge = null, LostSince = null, FoundSince = null, WideSince = null, ShortSince = null };
        Stand(new Belief(look.Azimuth, look.Elevation, BeamWidth * spread, _scene.Elapsed, origin), BeliefChangeKind.OnSatellite);
    }

    /// <summary>The dish was nudged to where it was asked to go.</summary>
    public void Nudge()
    {
        if (Memory.Dish is not { } dish || Asked is not { Target: var target } asked)
        {
            return;
        }

        double size = AimErrors.Separation(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation).Radians * EstimateLimits.NudgeShare;
        double before = SpreadAt(dish, _scene).Radians;
        double least = EstimateLimits.LeastNudgeError.Radians;
        PointingOrigin origin = dish.Origin == PointingOrigin.Plan ? PointingOrigin.Plan : PointingOrigin.MarkAndNudges;
        Memory = Memory with { LastNudge = new LastNudge(asked.CalledAt ?? _scene.Elapsed, dish) };
        Stand(BeliefIn(target, Root((before * before) + (size * size) + (least * least)), origin), BeliefChangeKind.Nudged);
    }

    /// <summary>The last nudge was not made: the dish is where it was before.</summary>
    public void TakeBack()
    {
        if (Memory.LastNudge is { } last)
        {
            Memory = Memory with { LastNudge = null };
            Stand(last.Before, BeliefChangeKind.TakenBack);
        }
    }

    /// <summary>Answers the operator.</summary>
    public void Say(string text) =>
        Memory = Memory with { Notice = new Message(text, MessageWeight.Advisory, _scene.Utc), NoticeAt = _scene.Elapsed };

    private static Angle Root(double square) => Angle.FromRadians(Math.Sqrt(square));

    private void Stand(Belief dish, BeliefChangeKind kind)
    {
        Memory = Memory with { Dish = dish, Change = new BeliefChange(Memory.Change.Number + 1, kind) };
        Asked = null;
    }

    private Belief BeliefIn(Hold hold, Angle spread, PointingOrigin origin) => new(hold.Azimuth, hold.Elevation, spread, _scene.Elapsed, origin);
}
