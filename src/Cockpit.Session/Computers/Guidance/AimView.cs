using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>The moment of the guidance as screen and cues see it.</summary>
internal sealed class AimView(GuidanceMemory memory, GuidanceInput input)
{
    private readonly Scene _scene = input.Scene;
    private readonly DishEstimate? _dish = input.Estimate.Dish;
    private readonly SensedPlace? _sensed = input.Estimate.Dish?.BySensor;
    private readonly Call? _open = memory.Steersman?.Open;
    private readonly Forecast? _coming = memory.Steersman?.Coming;

    public AimNow Now()
    {
        AimWord word = WordOf();
        Pointing? dish = word == AimWord.Done ? null : Dish();
        Hold? target = TargetOf(word);
        bool moves = word is AimWord.Move or AimWord.Next or AimWord.Hold or AimWord.Search;
        AimError? nudge = dish is not null && target is not null && moves && (_open is not null || _coming is not null)
            ? AimErrors.Between(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation)
            : null;
        bool tracks = dish is not null && _dish is { Started: true } && word != AimWord.Done;
        return new AimNow(
            word,
            ReasonOf(word),
            dish,
            tracks ? Region() : null,
            dish is not null && _scene is { InPass: true, Sky.Now: { } look } ? AimErrors.Between(dish, look) : null,
            nudge,
            _scene.Settings.Mount,
            target,
            moves ? Current() : null,
            moves ? At(_open?.At ?? _coming?.At) : null,
            CompassOf(),
            input.Estimate.SinceMark,
            _scene.Beam.HalfPowerWidth,
            tracks && _dish is { } losing ? new Decibels(losing.Belief.LossDb) : null,
            tracks && _dish is { } pointed ? pointed.Belief.InBeam : null,
            input is { MeasuredDb: { } measured, Estimate.ExpectedDb: { } expected } && _scene.InPass ? new Decibels(expected - measured) : null,
            _scene.InPass ? input.Estimate.Fine : null,
            ByPlanOf(),
            memory.Overhead is { } turn && turn.AtUtc > _scene.Utc && word != AimWord.Done ? turn : null,
            memory.PeakAskedAt is not null);
    }

    private AimWord WordOf()
    {
        if (_scene.Sky?.Phase is PassPhase.Over)
        {
            return AimWord.Done;
        }

        if (_open is not null)
        {
            return AimWord.Move;
        }

        if (!_scene.InPass || memory.Steersman is not { } steersman || steersman.SettingUp)
        {
            return AimWord.Point;
        }

        return steersman.Lost ? AimWord.Search
            : At(_coming?.At) - _scene.Utc <= _scene.Session(GuidanceLimits.NoticeBefore) ? AimWord.Next
            : AimWord.Hold;
    }

    private AimReason ReasonOf(AimWord word) => word switch
    {
        AimWord.Point => AimReason.SetUp,
        AimWord.Done => AimReason.Over,
        AimWord.Search => AimReason.Search,
        AimWord.Move => _open?.Reason switch
        {
            CallReason.Correct => AimReason.Correct,
            CallReason.Search => AimReason.Search,
            CallReason.Probe => AimReason.Probe,
            CallReason.Plan => AimReason.Plan,
            CallReason.Sun => AimReason.Sun,
            _ => AimReason.Follow,
        },
        _ when memory.Steersman is { SunLeads: true } => AimReason.Sun,
        _ => memory.Steersman is { ByPlan: true } ? AimReason.Plan : _coming is null ? AimReason.InBeam : AimReason.Follow,
    };

    /// <summary>During a call the amounts are counted from where the dish was believed to be when it was called; with a sensor from where it is.</summary>
    private DishBelief? Belief() => (_sensed is null ? _open?.Before : null) ?? (_dish is { } dish && double.IsFinite(dish.Belief.Azimuth) && dish.Belief.R95 > 0.0 ? dish.Belief : null);

    private Pointing? Dish() => _sensed is { } place
        ? new Pointing(Angle.FromDegrees(place.Azimuth), Angle.FromDegrees(Math.Min(90.0, place.Elevation)), Angle.FromDegrees(place.Spread), PointingOrigin.Sensor)
        : Belief() is { } b
        ? new Pointing(Angle.FromDegrees(b.Azimuth), Angle.FromDegrees(b.Elevation), Angle.FromDegrees(Math.Min(90.0, b.Sd)), Origin())
        : null;

    private PointingOrigin Origin() => input.Estimate.SinceMark is { } since
        ? _scene.Age(memory.AskedAt) <= since ? PointingOrigin.MarkAndNudges : PointingOrigin.Mark
        : _dish is { HasHeard: true, Started: true } ? PointingOrigin.Level
        : PointingOrigin.Plan;

    private BeliefRegion? Region() => Belief() is { } b
        ? new BeliefRegion(Angle.FromDegrees(b.SdMajor), Angle.FromDegrees(b.SdMinor), Angle.FromDegrees(b.MajorTilt), Angle.FromDegrees(b.R50), Angle.FromDegrees(b.R95))
        : null;

    private Hold? TargetOf(AimWord word)
    {
        if (word == AimWord.Done || _dish is null)
        {
            return null;
        }

        Candidate? move = _open?.Move ?? _coming?.Move;
        DateTimeOffset from = At(_open?.At ?? _coming?.At) ?? _scene.Utc;
        if (word == AimWord.Point || move is not { } to)
        {
            return word == AimWord.Point ? HoldOf(from, _dish.Setup.Azimuth, _dish.Setup.Elevation) : null;
        }

        return HoldOf(from, to.Azimuth, to.Elevation);
    }

    private Hold HoldOf(DateTimeOffset from, double azimuth, double elevation)
    {
        Hold? planned = _scene.HoldAt(from);
        int number = memory.Steersman is { } steersman ? steersman.Calls + (_open is null ? 1 : 0) : 1;
        return new Hold(
            number,
            from,
            planned?.ToUtc > from ? planned.ToUtc : from,
            Angle.FromDegrees(azimuth).WrappedToTurn(),
            Angle.FromDegrees(elevation),
            planned?.WorstLoss ?? Decibels.Zero);
    }

    private Hold? Current() => Dish() is { } dish && _scene.HoldAt(_scene.Utc) is { } hold
        ? hold with { Azimuth = dish.Azimuth, Elevation = dish.Elevation, ToUtc = At(_coming?.At) ?? hold.ToUtc }
        : null;

    private CompassReading? CompassOf() => _open?.Move is { Kind: MoveKind.Compass } read
        ? new CompassReading(Angle.FromDegrees(read.ReadAzimuth), Angle.FromDegrees(read.ReadElevation))
        : null;

    private ByPlan? ByPlanOf() => _scene.InPass && memory.Steersman is { ByPlan: true }
        ? new ByPlan(_dish is { HasHeard: true } ? TimeSpan.FromSeconds(_dish.SilentFor) / _scene.Settings.Speed : null)
        : null;

    private DateTimeOffset? At(double? seconds) => _scene.Utc - _scene.Elapsed + (seconds is { } s ? TimeSpan.FromSeconds(s) : null);
}
