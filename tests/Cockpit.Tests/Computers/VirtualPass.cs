using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Computers;

/// <summary>A pass in virtual time: ten times a second an SNR from a dish that a test points, or a tick when the feed is silent.</summary>
internal sealed class VirtualPass
{
    public static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private readonly GuidanceRun _run;
    private readonly DateTimeOffset _opened;
    private DateTimeOffset _now;
    private TimeSpan _corrected;
    private long _sequence = 1;

    public VirtualPass(double highest = 60, double startsAfterAos = -10, double speed = 1)
    {
        CircularPass circular = new(Aos, Angle.FromDegrees(highest));
        Sky = SkyPlan.Of(circular, Aos, circular.Pass, Settings);
        _now = Aos.AddSeconds(startsAfterAos);
        _opened = _now;
        _run = new GuidanceRun(Sky, Settings with { Speed = speed }, _now);
    }

    public static SessionSettings Settings { get; } = new()
    {
        ProgramVersion = "test",
        Kind = SessionKind.Demo,
        StationName = "Test hill",
        Station = new Site(Angle.FromDegrees(50), Angle.FromDegrees(10), 100),
        SatelliteName = "PETREL 2",
        Feeds = [FeedSettings.Signal],
    };

    public static ExpectedLevel Law { get; } = ExpectedLevel.Of(Settings);

    public SkyPlan Sky { get; }

    /// <summary>Where the dish really is; null = on the satellite.</summary>
    public (double Az, double El)? Dish { get; set; }

    /// <summary>Extra loss of the path, dB.</summary>
    public double FadeDb { get; set; }

    /// <summary>What the receiver shows whatever the dish does; null = what the dish gives.</summary>
    public double? Shows { get; set; }

    /// <summary>The power that a receiver shows that knows no ratio, dB; null = it shows the ratio.</summary>
    public double? Power { get; set; }

    public bool FeedWorks { get; set; } = true;

    public DateTimeOffset Now => _now;

    public double AfterAos => (_now - Aos).TotalSeconds;

    public Snapshot Snapshot => _run.Snapshot;

    public AimNow Aim => Snapshot.Aim;

    public LinkNow Link => Snapshot.Link;

    public string? Notice => Snapshot.Message?.Text;

    public LookAngles Look => Sky.Track.At(_now)!.Value;

    public Beam Beam { get; } = Beam.Of(Settings.DishDiameterMetres, Settings.Downlink);

    public Snapshot Press(OperatorKey key) => Fold(Sources.Keys, new OperatorPressed(key));

    public Snapshot Measure(SignalSample sample) => Fold(Sources.Signal, new SignalMeasured(Sources.Signal, sample));

    /// <summary>UTC is corrected; session time goes on as if nothing had been.</summary>
    public Snapshot CorrectClock(double seconds)
    {
        TimeSpan change = TimeSpan.FromSeconds(seconds);
        _now += change;
        _corrected += change;
        return Fold(Sources.Clock, new ClockCorrected(change, "test"));
    }

    public VirtualPass Go(double seconds) => GoUntil(_ => false, seconds);

    /// <summary>Goes on until something is so; fails after a limit unless the limit is what is wanted.</summary>
    public VirtualPass GoUntil(Func<AimNow, bool> isSo, double limit)
    {
        int steps = (int)Math.Round(limit * 10);
        for (int i = 0; i < steps && !isSo(Aim); i++)
        {
            _now = _now.AddSeconds(0.1);
            if (FeedWorks)
            {
                Measure(Power is { } power ? new SignalSample { LevelDb = power } : new SignalSample { SnrDb = Shows ?? TrueSnr() });
            }
            else
            {
                Fold(Sources.Clock, new Ticked());
            }
        }

        return this;
    }

    public VirtualPass ToWord(AimWord word, double limit)
    {
        GoUntil(aim => aim.Word == word, limit);
        Assert.Equal(word, Aim.Word);
        return this;
    }

    private Snapshot Fold(string source, SessionEvent happened) =>
        _run.Fold(new Envelope(++_sequence, _now - _opened - _corrected, _now, source, happened));

    private double TrueSnr()
    {
        LookAngles look = Look;
        double loss = Dish is { } dish ? Beam.LossAt(AimErrors.Separation(Angle.FromDegrees(dish.Az), Angle.FromDegrees(dish.El), look.Azimuth, look.Elevation)).Value : 0.0;
        return look.Elevation < Angle.Zero ? -5.0 : Math.Max(Law.ShapeDb(look) - 60.0 - loss - FadeDb, -5.0);
    }
}
