using Cockpit.Core.Aim;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Rehearsal;

/// <summary>A rehearsal in virtual time: the real fold, the simulated world, and somebody at the keys.</summary>
internal sealed class KeyFlight
{
    private readonly Fold _fold = new();
    private readonly SimulatedPass _simulated;
    private readonly DateTimeOffset _start;
    private TimeSpan _now;

    /// <param name="seed">Weather, errors of the instruments.</param>
    /// <param name="world">The world.</param>
    /// <param name="compassError">Error of the compass, degrees; null = by the seed.</param>
    /// <param name="beforeAos">When the session opens, seconds before AOS; negative = after it.</param>
    public KeyFlight(ulong seed, WorldModel world, double? compassError, double beforeAos = 30.0)
    {
        Settings = Demo.Of(seed, "test").Settings with { Kind = SessionKind.Rehearsal, KeysSteer = true, Sun = SunRule.Skip };
        Plan = SkyPlan.For(Settings, Demo.Of(seed, "test").StartUtc.AddMinutes(-5))!;
        _start = Plan.Pass.Aos.Utc.AddSeconds(-beforeAos);
        _simulated = new SimulatedPass(new SatelliteTrack(new Sgp4(Demo.Elements), Settings.Station), Settings, HandSkill.Novice, world: world, compassErrorDegrees: compassError);
        Now = Happen(Sources.Program, new SessionOpened(Settings));
    }

    public SessionSettings Settings { get; }

    public SkyPlan Plan { get; }

    public Snapshot Now { get; private set; }

    public List<Envelope> Envelopes { get; } = [];

    public List<Snapshot> Snapshots { get; } = [];

    public TruthRecorded Truth { get; private set; } = new(Angle.Zero, Angle.Zero, Decibels.Zero);

    public List<(DateTimeOffset Utc, TruthRecorded Truth)> Truths { get; } = [];

    /// <summary>Goes on by seconds; whoever sits at the keys is asked at each tenth.</summary>
    public void Fly(double seconds, Action<KeyFlight>? keys = null)
    {
        for (int i = 0; i < (int)Math.Round(seconds * 10.0); i++)
        {
            _now += TimeSpan.FromSeconds(0.1);
            keys?.Invoke(this);
            Snapshot ticked = Happen(Sources.Clock, new Ticked());
            foreach (SessionEvent happened in _simulated.Step(ticked))
            {
                _ = Happen(Sources.Rehearsal, happened);
                if (happened is TruthRecorded truth)
                {
                    Truth = truth;
                    Truths.Add((ticked.Utc, truth));
                }
            }
        }
    }

    /// <summary>Turns the head by key.</summary>
    public void Turn(double pan, double tilt) => Happen(Sources.Keys, new HeadTurned(Angle.FromDegrees(pan), Angle.FromDegrees(tilt)));

    private Snapshot Happen(string source, SessionEvent happened)
    {
        Envelope envelope = new(Envelopes.Count + 1, _now, _start + _now, source, happened);
        Envelopes.Add(envelope);
        Now = _fold.Step(envelope);
        Snapshots.Add(Now);
        return Now;
    }
}

/// <summary>Somebody who turns by key what is called, a second after it was called, and reads the scales when they are asked for.</summary>
internal sealed class KeyHand
{
    private const double Reaction = 1.0;
    private DateTimeOffset? _called;
    private bool _done;

    public void Press(KeyFlight flight)
    {
        AimNow aim = flight.Now.Aim;
        if (aim is not { Word: AimWord.Move, Nudge: { } nudge, NudgeAt: { } at })
        {
            return;
        }

        if (_called != at)
        {
            (_called, _done) = (at, false);
        }

        if (_done || (flight.Now.Utc - at).TotalSeconds < Reaction)
        {
            return;
        }

        _done = true;
        (double pan, double tilt) = (nudge.Pan.Degrees, nudge.Tilt.Degrees);
        if (aim.Compass is { } read && flight.Now.Desk.Head is { } head)
        {
            pan = (read.Azimuth - head.Azimuth).WrappedToHalfTurn().Degrees;
            tilt = (read.Elevation - head.Elevation).Degrees;
        }

        // Whole degrees: that is what the arrows can do.
        flight.Turn(Math.Round(pan), Math.Round(tilt));
    }
}
