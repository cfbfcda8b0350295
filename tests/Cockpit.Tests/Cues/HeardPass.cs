using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

/// <summary>A whole pass with the real guidance and an operator who does what the voice says, in virtual time.</summary>
internal sealed class HeardPass
{
    /// <summary>When the operator has found the satellite, seconds after AOS; until then the dish is known too badly and the tone sounds.</summary>
    public const double MarkSeconds = 8.0;

    private const double ReactionSeconds = 1.2;
    private const double SearchSeconds = 8.0;
    private const double KeySeconds = 0.6;
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private static readonly ExpectedLevel Law = ExpectedLevel.Of(PassStage.Settings());
    private readonly SkyPlan _sky;
    private readonly GuidanceRun _run;
    private readonly Beam _beam;
    private readonly List<Said> _heard = [];
    private readonly List<(double At, PeakTone Tone)> _tones = [];
    private CueMemory _memory = CueMemory.Empty;
    private DateTimeOffset _now;
    private (Angle Azimuth, Angle Elevation) _dish;
    private (double At, AimError Move)? _hand;
    private double? _keyAt;
    private double _markedAt;

    public HeardPass(double highestDegrees)
    {
        CircularPass circular = new(Aos, Angle.FromDegrees(highestDegrees));
        _sky = SkyPlan.Of(circular, Aos, circular.Pass, Settings);
        _now = Aos.AddSeconds(-70);
        _run = new GuidanceRun(_sky, Settings, _now);
        _beam = Beam.Of(Settings.DishDiameterMetres, Settings.Downlink);
        Hold first = _run.Snapshot.Sky!.Holds[0];
        _dish = (first.Azimuth, first.Elevation);
    }

    /// <param name="At">Seconds after AOS.</param>
    /// <param name="Cue">What sounded.</param>
    /// <param name="Aim">The aim then.</param>
    /// <param name="WrongB">For a word: how far the dish would be from the next hold after doing what it says, B.</param>
    public sealed record Said(double At, Cue Cue, AimNow Aim, double WrongB);

    public static SessionSettings Settings => PassStage.Settings() with { Heartbeat = true };

    public IReadOnlyList<Said> Heard => _heard;

    public IReadOnlyList<(double At, PeakTone Tone)> Tones => _tones;

    /// <summary>Seconds after AOS at which the hand moved the dish.</summary>
    public List<double> Nudges { get; } = [];

    /// <summary>How often the operator peaked.</summary>
    public int Marks { get; private set; }

    /// <summary>Extra loss of the path at a time after AOS, dB.</summary>
    public Func<double, double> FadeDb { get; init; } = _ => 0.0;

    public double DurationSeconds => (_sky.At(_now).Pass.Los.Utc - Aos).TotalSeconds;

    private double Seconds => (_now - Aos).TotalSeconds;

    /// <summary>Flies the whole pass.</summary>
    public HeardPass Fly()
    {
        double end = DurationSeconds + 20.0;
        while (Seconds < end)
        {
            _now = _now.AddSeconds(0.1);
            Hand();
            Happen(Sources.Signal, new SignalMeasured(Sources.Signal, new SignalSample { SnrDb = Snr(), Locked = Snr() > 3.0 }));
            Happen(Sources.Clock, new Ticked());
            bool heardTone = _tones.Count > 0 && Seconds - _tones[^1].At < 0.2 && Seconds - _markedAt > SearchSeconds;
            if ((Seconds > MarkSeconds && Marks == 0) || (Marks > 0 && heardTone)) { Mark(); }
        }

        return this;
    }

    /// <summary>The operator finds the best and says so.</summary>
    private void Mark()
    {
        Marks++;
        _markedAt = Seconds;
        _hand = null;
        LookAngles look = _sky.Track.At(_now)!.Value;
        _dish = (look.Azimuth, look.Elevation);
        Happen(Sources.Keys, new OperatorPressed(OperatorKey.Peaked));
    }

    private void Hand()
    {
        if (_hand is { } hand && Seconds >= hand.At)
        {
            _dish = AimErrors.Moved(_dish.Azimuth, _dish.Elevation, hand.Move.Right, hand.Move.Up);
            Nudges.Add(Seconds);
            _hand = null;
            _keyAt = Seconds + KeySeconds;
        }

        if (_keyAt <= Seconds)
        {
            _keyAt = null;
            Happen(Sources.Keys, new OperatorPressed(OperatorKey.Moved));
        }
    }

    private void Happen(string source, SessionEvent happened)
    {
        Snapshot snapshot = _run.Fold(_now, source, happened);
        _memory = CueComputer.Next(_memory, snapshot, new Envelope(snapshot.Sequence, snapshot.Elapsed, _now, source, happened));
        CuePlan plan = CueComputer.Derive(_memory);
        foreach (Cue cue in plan.Started)
        {
            _heard.Add(new Said(Seconds, cue, snapshot.Aim, cue.Kind == CueKind.MoveWord ? WrongB(snapshot.Aim) : 0.0));
            if (cue.Kind == CueKind.MoveWord && snapshot.Aim.Nudge is { } nudge) { _hand = (Seconds + ReactionSeconds, nudge); }
        }

        if (plan.Peak is { } tone) { _tones.Add((Seconds, tone)); }
    }

    private double WrongB(AimNow aim)
    {
        (Angle azimuth, Angle elevation) = AimErrors.Moved(_dish.Azimuth, _dish.Elevation, aim.Nudge!.Value.Right, aim.Nudge.Value.Up);
        return AimErrors.Separation(azimuth, elevation, aim.Target!.Azimuth, aim.Target.Elevation) / aim.BeamWidth;
    }

    private double Snr()
    {
        LookAngles look = _sky.Track.At(_now)!.Value;
        if (look.Elevation < Angle.Zero) { return -5.0; }

        double loss = _beam.LossAt(AimErrors.Separation(_dish.Azimuth, _dish.Elevation, look.Azimuth, look.Elevation)).Value;
        return Math.Max(Law.ShapeDb(look) - 58.0 - loss - FadeDb(Seconds), -5.0);
    }
}
