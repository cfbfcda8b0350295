using System.Globalization;
using System.Text;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

/// <summary>A hand-made pass: sets up snapshots, steps the cue computer ten times a second, keeps what sounded.</summary>
internal sealed class PassStage
{
    public static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 20, 0, TimeSpan.Zero);
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(0.1);
    private readonly List<(double At, Cue Cue)> _heard = [];
    private readonly List<(double At, PeakTone? Tone)> _peaks = [];
    private CueMemory _memory = CueMemory.Empty;
    private long _sequence;
    private TimeSpan _elapsed;

    /// <param name="startSeconds">Start, seconds after AOS.</param>
    public PassStage(double startSeconds)
    {
        _start = startSeconds;
        Snapshot = Quiet(Settings());
        Moment();
    }

    private double _start;

    public Snapshot Snapshot { get; set; }

    /// <summary>Seconds after AOS.</summary>
    public double Now => _start + _elapsed.TotalSeconds;

    public IReadOnlyList<(double At, Cue Cue)> Heard => _heard;

    public IReadOnlyList<(double At, PeakTone? Tone)> Peaks => _peaks;

    public CuePlan Plan { get; private set; } = CuePlan.Silence;

    public IEnumerable<CueKind> Kinds => _heard.Select(h => h.Cue.Kind);

    public int Count(CueKind kind) => _heard.Count(h => h.Cue.Kind == kind);

    /// <summary>Beam of this stage.</summary>
    public static Angle Beam => Angle.FromDegrees(15.4);

    public static SessionSettings Settings() => new()
    {
        ProgramVersion = "test",
        Kind = SessionKind.Live,
        StationName = "Heron Hill",
        Station = new Site(Angle.FromDegrees(47.5), Angle.FromDegrees(8.5), 500),
        SatelliteName = "PETREL 2",
        Heartbeat = false,
        Feeds = [FeedSettings.Signal],
    };

    public static AimError Move(double rightB, double upB, double elevationDegrees = 30.0) => new(
        Beam * rightB, Beam * upB, Beam * (rightB / Math.Cos(Angle.FromDegrees(elevationDegrees).Radians)));

    public static Hold HoldNumber(int number, double fromSeconds, double toSeconds) =>
        new(number, Aos.AddSeconds(fromSeconds), Aos.AddSeconds(toSeconds), Angle.FromDegrees(180), Angle.FromDegrees(30), new Decibels(0.5));

    public void Aim(Func<AimNow, AimNow> change) => Snapshot = Snapshot with { Aim = change(Snapshot.Aim) };

    public void Link(Func<LinkNow, LinkNow> change) => Snapshot = Snapshot with { Link = change(Snapshot.Link) };

    public void Desk(Func<DeskNow, DeskNow> change) => Snapshot = Snapshot with { Desk = change(Snapshot.Desk) };

    public void Feed(FeedHealth health) => Snapshot = Snapshot with { Feeds = [Snapshot.Feeds[0] with { Health = health }] };

    /// <summary>Plans the next nudge: its hold, its call, the move.</summary>
    public void Plan3(int hold, double callSeconds, double rightB, double upB) => Aim(a => a with
    {
        Word = AimWord.Hold,
        Target = HoldNumber(hold, callSeconds, callSeconds + 60),
        Nudge = Move(rightB, upB),
        NudgeAt = Aos.AddSeconds(callSeconds),
    });

    /// <summary>Lets time go on; <paramref name="each"/> runs before every step.</summary>
    public PassStage Run(double seconds, Action<PassStage>? each = null)
    {
        int steps = (int)Math.Round(seconds * 10.0);
        for (int i = 0; i < steps; i++)
        {
            _elapsed += Step;
            Moment();
            each?.Invoke(this);
            Next(new Ticked());
        }

        return this;
    }

    public PassStage Press(OperatorKey key)
    {
        Next(new OperatorPressed(key));
        return this;
    }

    /// <summary>The clock is corrected.</summary>
    public PassStage Turn(double seconds)
    {
        _start += seconds;
        return this;
    }

    public PassStage Happen(SessionEvent sessionEvent)
    {
        Next(sessionEvent);
        return this;
    }

    /// <summary>All that sounded, a line a cue: time after AOS, priority, kind, words, tones as start+length@pitch.</summary>
    public string Score()
    {
        StringBuilder text = new();
        foreach ((double at, Cue cue) in _heard)
        {
            text.Append(CultureInfo.InvariantCulture, $"{at,6:0.0} P{cue.Priority} {cue.Kind} \"{cue.Text}\"");
            foreach (Tone tone in cue.Tones)
            {
                string timbre = tone.Timbre == Timbre.Rich ? " rich" : string.Empty;
                text.Append(CultureInfo.InvariantCulture, $" {tone.StartMs:0}+{tone.LengthMs:0}@{tone.FrequencyHz:0}{timbre}");
            }

            text.Append('\n');
        }

        return text.ToString();
    }

    /// <summary>Share of the time in which a cue sounds.</summary>
    public double Duty() => _heard.Sum(h => h.Cue.Tones.Sum(t => t.LengthMs)) / 1000.0 / _elapsed.TotalSeconds;

    private void Next(SessionEvent sessionEvent)
    {
        _sequence++;
        KeyAnswer? answer = sessionEvent is OperatorPressed pressed ? new KeyAnswer(pressed.Key, Taken: true, "taken") : null;
        Snapshot = Snapshot with { Sequence = _sequence, Answer = answer };
        Envelope envelope = new(_sequence, Snapshot.Elapsed, Snapshot.Utc, "test", sessionEvent);
        _memory = CueComputer.Next(_memory, Snapshot, envelope);
        Plan = CueComputer.Derive(_memory);
        foreach (Cue cue in Plan.Started) { _heard.Add((Now, cue)); }

        _peaks.Add((Now, Plan.Peak));
    }

    private void Moment()
    {
        DateTimeOffset utc = Aos.AddSeconds(Now);
        PassPhase phase = Now < -60 ? PassPhase.Waiting : Now < 0 ? PassPhase.Ready : Now < 300 ? PassPhase.Climbing : Now < 600 ? PassPhase.Sinking : PassPhase.Over;
        Snapshot = Snapshot with { Elapsed = _elapsed, Utc = utc, Sky = Snapshot.Sky! with { Phase = phase } };
    }

    /// <summary>A good measurement of some age.</summary>
    public static Reading<SignalSample> Measured(TimeSpan age, bool locked = true) => new(new SignalSample { SnrDb = 10, Locked = locked }, age);

    private static Snapshot Quiet(SessionSettings settings)
    {
        static PassMoment At(double seconds, double azimuth, double elevation) =>
            new(Aos.AddSeconds(seconds), new LookAngles(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), 1500, 0));
        Pass pass = new(At(0, 10, 5), At(300, 90, 60), At(600, 170, 5));
        SkyNow sky = new(pass, null, PassPhase.Climbing, TimeSpan.Zero, TimeSpan.FromDays(1), 2, [], [], []);
        LinkNow link = new(null, null, Measured(TimeSpan.Zero), SteeringQuantity.SignalToNoise, 10, 10, 0, [], null);
        AimNow aim = new(
            AimWord.Hold,
            AimReason.Follow,
            new Pointing(Angle.FromDegrees(170), Angle.FromDegrees(30), Beam * 0.1, PointingOrigin.MarkAndNudges),
            null,
            Move(0.05, 0.05),
            null,
            Mount.Free,
            null,
            HoldNumber(1, 0, 60),
            null,
            null,
            TimeSpan.FromSeconds(20),
            Beam,
            new Decibels(0.1),
            null,
            null,
            null,
            null,
            null);
        FeedNow feed = new("signal", FeedRole.Signal, "tcp://127.0.0.1:7001", FeedHealth.Good, null, null, 100, 0);
        return new Snapshot(0, Aos, TimeSpan.Zero, settings, sky, link, aim, [feed], new DeskNow("silent", null, null, false, 0), null, CuePlan.Silence);
    }
}
