using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Tests.Session;

/// <summary>Each thing that has to be right before a pass, made right, made wrong, and left unknown by what really happens.</summary>
public sealed class ReadinessTests
{
    internal static readonly ElementSet Elements = ElementSets.Read("test", new StringReader("""
        BRACKWING 5
        1 99129U 26014A   26329.02321816  .00000043  00000-0  10514-3 0  7313
        2 99129  98.8186 153.7539 0005269 308.7134  69.4194 14.12592518451565
        """)).Sets[0];

    internal static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);

    internal static readonly SessionSettings Settings = new()
    {
        ProgramVersion = "test",
        Kind = SessionKind.Live,
        StationName = "LOWLAND",
        Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
        SatelliteName = "BRACKWING 5",
        Elements = Elements,
        Feeds = [FeedSettings.Signal],
        SetUp = new SetUpFacts(0, [], ClockIsChosen: false),
    };

    private readonly Fold _fold = new();
    private long _sequence;
    private Snapshot? _now;

    [Fact]
    public void Everything_is_open_until_something_is_known_and_nothing_stands_there_in_the_pass()
    {
        Happens(0, new SessionOpened(Settings));
        Assert.Equal(Enum.GetValues<ReadinessTopic>().Except([ReadinessTopic.Sensor]), _now!.Readiness!.Items.Select(item => item.Topic));
        foreach (ReadinessTopic topic in new[] { ReadinessTopic.Signal, ReadinessTopic.Noise, ReadinessTopic.Clock, ReadinessTopic.Disk, ReadinessTopic.Sound, ReadinessTopic.Skyline })
        {
            Assert.Equal(ReadinessState.Open, Of(topic).State);
        }

        Happens((_now.Sky!.Pass.Aos.Utc - Start).TotalSeconds + 1, new Ticked());
        Assert.Null(_now.Readiness);
    }

    [Fact]
    public void The_signal_is_green_while_it_comes_and_red_when_it_stops_is_not_understood_or_was_never_asked_for()
    {
        Happens(0, new SessionOpened(Settings));
        Happens(1, new SignalMeasured("signal", new SignalSample { SnrDb = 0.2 }));
        Assert.Equal(ReadinessState.Green, Of(ReadinessTopic.Signal).State);
        Happens(30, new Ticked());
        Is(ReadinessTopic.Signal, ReadinessState.Red, "silent since 10:00:01 UTC");

        Happens(0, new SessionOpened(Settings));
        Happens(1, new FeedLineRejected("signal", "column 1: 'x' is not a number", 4, 4));
        Is(ReadinessTopic.Signal, ReadinessState.Red, "4 lines came, none understood");

        Happens(0, new SessionOpened(Settings with { Feeds = [] }));
        Is(ReadinessTopic.Signal, ReadinessState.Red, "none: the plan alone guides");
    }

    [Theory]
    [InlineData("noise", ReadinessState.Green)]
    [InlineData("flat", ReadinessState.Red)]
    [InlineData("swinging", ReadinessState.Red)]
    [InlineData("strong", ReadinessState.Red)]
    [InlineData("locked", ReadinessState.Red)]
    [InlineData("overloaded", ReadinessState.Red)]
    public void The_level_before_the_rise_has_to_look_like_noise(string kind, ReadinessState wanted)
    {
        Happens(0, new SessionOpened(Settings));
        for (int i = 0; i < 200; i++)
        {
            double noise = 0.2 * Math.Sin(i * 1.7);
            Happens(1 + (i * 0.1), new SignalMeasured("signal", kind switch
            {
                "flat" => new SignalSample { LevelDb = -60 },
                "swinging" => new SignalSample { LevelDb = -60 + (5 * Math.Sin(i * 0.1)) },
                "strong" => new SignalSample { SnrDb = 9 + noise },
                "locked" => new SignalSample { SnrDb = 4 + noise, Locked = true },
                _ => new SignalSample { SnrDb = noise },
            }));
        }

        if (kind == "overloaded")
        {
            Happens(22, new FeedRemarked("signal", "the receiver is overloaded: turn its gain down"));
        }

        Assert.Equal(wanted, Of(ReadinessTopic.Noise).State);
    }

    [Fact]
    public void The_clock_is_red_when_it_is_wrong_and_green_after_the_correction()
    {
        Happens(0, new SessionOpened(Settings));
        Happens(1, new ClockCompared("192.0.2.1", TimeSpan.FromSeconds(2.5), TimeSpan.FromMilliseconds(20), null));
        Is(ReadinessTopic.Clock, ReadinessState.Red, "2.50 s behind 192.0.2.1 (±0.02)");
        Assert.Equal("C corrects the predictions", Of(ReadinessTopic.Clock).ToDo);
        Happens(2, new ClockCorrected(TimeSpan.FromSeconds(2.5), "asked"));
        Assert.Equal(ReadinessState.Green, Of(ReadinessTopic.Clock).State);

        Happens(0, new SessionOpened(Settings with { SetUp = Settings.SetUp! with { ClockIsChosen = true } }));
        Is(ReadinessTopic.Clock, ReadinessState.Green, "begun at an instant of your choice");
    }

    [Theory]
    [InlineData(1, ReadinessState.Green)]
    [InlineData(5, ReadinessState.Open)]
    [InlineData(12, ReadinessState.Red)]
    public void Elements_grow_old(int days, ReadinessState wanted)
    {
        Happens(0, new SessionOpened(Settings), Elements.EpochUtc.AddDays(days));
        Assert.Equal(wanted, Of(ReadinessTopic.Elements).State);
        Assert.Equal(wanted == ReadinessState.Green ? null : "cockpit elements update", Of(ReadinessTopic.Elements).ToDo);
    }

    [Fact]
    public void The_disk_is_red_when_the_recording_does_not_fit_grows_too_fast_or_nothing_is_written()
    {
        Happens(0, new SessionOpened(Settings));
        Happens(1, new DiskMeasured("sessions", 80_000_000_000, 22_000_000_000));
        Is(ReadinessTopic.Disk, ReadinessState.Green, "80.0 GB free, 22.0 GB needed");
        Happens(2, new DiskMeasured("sessions", 22_100_000_000, 22_000_000_000));
        Is(ReadinessTopic.Disk, ReadinessState.Red, "22.1 GB free, 22.0 GB needed");
        Happens(3, new DiskMeasured("sessions", null, 5_000_000));
        Assert.Equal(ReadinessState.Open, Of(ReadinessTopic.Disk).State);
        Happens(4, new DiskMeasured("sessions", 80_000_000_000, 5_000_000));
        Happens(5, new RecordingWatched("signal", 1_000_000_000, 100_000_000, TimeSpan.Zero, 6_000_000_000));
        Is(ReadinessTopic.Disk, ReadinessState.Red, "full in 1.0 minutes");
        Happens(6, new JournalChanged("No space left on device"));
        Is(ReadinessTopic.Disk, ReadinessState.Red, "nothing is recorded: No space left on device");
    }

    [Fact]
    public void The_test_sound_asks_Space_says_it_came_and_X_that_it_did_not()
    {
        Happens(0, new SessionOpened(Settings));
        Happens(0.5, new SpeakerChanged("headphones", null));
        Happens(1, new OperatorPressed(OperatorKey.TestSound));
        Assert.True(_now!.Readiness!.SoundAsked);
        Is(ReadinessTopic.Sound, ReadinessState.Open, "left, then right, then both?");
        Happens(2, new OperatorPressed(OperatorKey.NotMoved));
        Is(ReadinessTopic.Sound, ReadinessState.Red, "not heard as it has to be");
        Happens(3, new OperatorPressed(OperatorKey.TestSound));
        Happens(4, new OperatorPressed(OperatorKey.OneKey));
        Is(ReadinessTopic.Sound, ReadinessState.Green, "heard left and right on headphones");
        Happens(5, new OperatorPressed(OperatorKey.Mute));
        Is(ReadinessTopic.Sound, ReadinessState.Red, "muted");
        Happens(6, new SpeakerChanged("bell", "no sound device answers"));
        Is(ReadinessTopic.Sound, ReadinessState.Red, "bell: no sound device answers");
        Happens(7, new SpeakerChanged("silent", null));
        Is(ReadinessTopic.Sound, ReadinessState.Red, "off: nothing will be heard");
    }

    [Fact]
    public void Without_a_test_that_is_asked_about_Space_and_X_mean_what_they_always_mean()
    {
        Happens(0, new SessionOpened(Settings));
        Happens(1, new OperatorPressed(OperatorKey.OneKey));
        Assert.Equal(OperatorKey.Moved, _now!.Answer!.Key);
        Happens(2, new OperatorPressed(OperatorKey.NotMoved));
        Assert.Equal(OperatorKey.NotMoved, _now.Answer!.Key);
    }

    [Fact]
    public void A_skyline_is_green_and_tells_the_first_sight()
    {
        Happens(0, new SessionOpened(Settings with { Skyline = [new HorizonPoint(Angle.Zero, Angle.FromDegrees(12)), new HorizonPoint(Angle.FromDegrees(180), Angle.FromDegrees(12))] }));
        Assert.Equal(ReadinessState.Green, Of(ReadinessTopic.Skyline).State);
        Assert.StartsWith("first sight 12 degrees high", Of(ReadinessTopic.Skyline).Found, StringComparison.Ordinal);
    }

    [Fact]
    public void Settings_are_red_with_mistakes_and_open_with_usual_values()
    {
        Happens(0, new SessionOpened(Settings));
        Is(ReadinessTopic.Settings, ReadinessState.Green, "dish 0.8 m, 1700.0 MHz, split-phase-665k");
        Happens(0, new SessionOpened(Settings with { SetUp = new SetUpFacts(0, ["frequency", "service"], ClockIsChosen: false) }));
        Is(ReadinessTopic.Settings, ReadinessState.Open, "usual value taken for frequency, service");
        Happens(0, new SessionOpened(Settings with { SetUp = new SetUpFacts(2, ["frequency"], ClockIsChosen: false) }));
        Is(ReadinessTopic.Settings, ReadinessState.Red, "2 mistakes passed over");
    }

    [Fact]
    public void A_pass_that_was_chosen_is_flown_and_not_the_one_before_it()
    {
        Happens(0, new SessionOpened(Settings));
        DateTimeOffset first = _now!.Sky!.Pass.Aos.Utc;
        Happens(0, new SessionOpened(Settings with { NotBefore = _now.Sky.Pass.Los.Utc.AddMinutes(1) }));
        Assert.True(_now.Sky!.Pass.Aos.Utc > first.AddMinutes(60));
    }

    private ReadinessItem Of(ReadinessTopic topic) => _now!.Readiness!.Items.Single(item => item.Topic == topic);

    private void Is(ReadinessTopic topic, ReadinessState state, string found) => Assert.Equal((state, found), (Of(topic).State, Of(topic).Found));

    private void Happens(double seconds, SessionEvent happened, DateTimeOffset? start = null) => _now = _fold.Step(
        new Envelope(++_sequence, TimeSpan.FromSeconds(seconds), (start ?? Start).AddSeconds(seconds), "test", happened));
}
