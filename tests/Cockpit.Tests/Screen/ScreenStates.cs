using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Screen.Panels;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Tests.Screen;

/// <summary>The named states of the screen; each has goldens.</summary>
internal static class ScreenStates
{
    public static PageInput Input(string state) => state switch
    {
        "waiting" => Live(NoSignal(Moment.At(-754, AimWord.Point)) with { Feeds = [Feed(FeedHealth.Waiting, "10:02:20")] }),
        "check" => Live(Checked(NoSignal(Moment.At(-754, AimWord.Point)), Choice)) with { View = PlotView.Readiness },
        "check-named" => Live(Checked(NoSignal(Moment.At(-754, AimWord.Point)), null)) with { View = PlotView.Readiness },
        "pairing" => Live(Checked(NoSignal(Moment.At(-754, AimWord.Point)), Choice)) with { View = PlotView.Pairing, Pairing = ShownPairing.Of("https://192.168.143.117:17643/ABCDEFGHIJKLMNOP/", asked: false) },
        "ready" => Live(NoSignal(Moment.At(-12, AimWord.Point)) with { Feeds = [Feed(FeedHealth.Good, null)] }),
        "hold" => Live(Moment.At(209)),
        "next" => Live(Moment.At(229, AimWord.Next)),
        "move" => Live(Moment.At(238, AimWord.Move, right: 3.8, up: 1.2)),
        "move-overhead" => Live(Moment.At(380, AimWord.Move, highest: 88, right: -4.8, up: 2.5)),
        "search" => Live(Moment.At(120, AimWord.Search) with { Message = Say("No signal where it was expected: sweep slowly and listen.", MessageWeight.Caution, 118) }),
        "stale" => Live(Stale(Moment.At(320))),
        "feed-lost" => Live(Lost(Moment.At(340))),
        "journal" => Live(Journal(Moment.At(360))),
        "sun" => Live(Sunny(Moment.At(609, AimWord.Next))),
        "big-turn" => Live(Turning(Moment.At(238, AimWord.Hold, highest: 88))),
        "tuned" => Live(Tuned(Moment.At(238, AimWord.Move, right: 3.8, up: 1.2))),
        "by-compass" => Live(Read(Moment.At(238, AimWord.Move, right: 9, up: 4))),
        "over" => Live(Moment.At(820, AimWord.Done) with { Message = Say("The pass is over: 3 min 12 s of it below the expected level.", MessageWeight.Advisory, 800) }),
        "review" => new PageInput(Moment.At(820, AimWord.Done), null, Replay: false, Help: false, null, PlotView.Review, Reviewed),
        "help" => Live(Moment.At(209)) with { Help = true },
        "quit" => Live(Moment.At(209)) with { Notice = "The pass is running. Press Q again within 4 s to leave." },
        "replay" => new PageInput(Moment.At(209), new PlayerNow(2, Paused: false, TimeSpan.FromSeconds(329), TimeSpan.FromSeconds(960), Stops), Replay: true, Help: false, null),
        "replay-help" => new PageInput(Moment.At(209), new PlayerNow(1, Paused: true, TimeSpan.FromSeconds(329), TimeSpan.FromSeconds(960)), Replay: true, Help: true, null),
        _ => throw new ArgumentOutOfRangeException(nameof(state)),
    };

    private static ImmutableArray<Milestone> Stops =>
    [
        Stop(118, 118, MilestoneKind.Alarm), Stop(130, 150, MilestoneKind.Gap), Stop(200, 200, MilestoneKind.Mark),
        Stop(300, 300, MilestoneKind.Nudge), Stop(305, 305, MilestoneKind.Mark), Stop(520, 520, MilestoneKind.Nudge), Stop(700, 760, MilestoneKind.Gap),
    ];

    internal static ShownReview Reviewed => new(
        [
            "PETREL 2, 2026-11-25 10:15:02 to 10:28:40 UTC, top 64°",
            "lines        4520 received of 4908 sent (92.1 %), 388 lost, by the decoder's count; 120 more were sent outside the session",
            "lost by      late 210 in 6, fade 98 in 2, skyline 80 in 1",
            "advice       Begin a move at the word: you began 2.9 s after the call, the guidance reckons with 1.6 s (210 lines in 6 gaps).",
            "gaps         UTC         seconds  lines  cause             sure",
            "             10:15:02.0     13.3     80  skyline            91 %",
            "             10:19:27.0      8.3     50  late               84 %",
            "hand         begins 2.9 s after the call ± 0.7 (24 keys); moves 0.93 ± 0.04 of what is called; 31 nudges called, 24 planned, 2 marks",
        ],
        [.. Enumerable.Range(0, 4908).Select(i => i < 80 || i % 700 is > 300 and < 350 ? LineState.Lost : LineState.Received)]);

    private static Milestone Stop(double from, double to, MilestoneKind kind) => new(TimeSpan.FromSeconds(from), TimeSpan.FromSeconds(to), kind, "words");

    private static PageInput Live(Snapshot now) => new(now, null, Replay: false, Help: false, null);

    private static Message Say(string text, MessageWeight weight, double at) => new(text, weight, Moment.Aos + TimeSpan.FromSeconds(at));

    private static FeedNow Feed(FeedHealth health, string? since) => new(
        "signal",
        FeedRole.Signal,
        "tcp://localhost:4700",
        health,
        since is null ? null : DateTimeOffset.Parse($"2026-11-25T{since}Z", System.Globalization.CultureInfo.InvariantCulture),
        null,
        health == FeedHealth.Waiting ? 0 : 1482,
        3);

    private static Snapshot NoSignal(Snapshot now) => now with
    {
        Link = now.Link with { Last = null, Quantity = null, MeasuredDb = null, ExpectedDb = null, TrendDbPerSec = null, History = [] },
        Aim = now.Aim with { SinceMark = null, Dish = now.Aim.Target is { } t ? new(t.Azimuth, t.Elevation, Angle.FromDegrees(9), Core.Aim.PointingOrigin.Plan) : null, Error = null, Nudge = null, PointingLoss = null, NudgeAt = now.Sky!.Pass.Aos.Utc },
    };

    /// <summary>Five passes that could be flown.</summary>
    internal static PassChoice Choice { get; } = new(
        "the next worth it, better than BRACKWING 3 at the same time: go: high, 12 min (10 clean), part daylight, 26 nudges",
        [
            new("BRACKWING 3", Moment.Aos.AddSeconds(-200), Angle.FromDegrees(31), "fair: 8 of 10 min, daylight"),
            new("PETREL 2", Moment.Aos, Angle.FromDegrees(64), "go: 10 of 12 min, part daylight"),
            new("FENHERON", Moment.Aos.AddHours(3), Angle.FromDegrees(88), "go: 10 of 12 min, daylight, sun near"),
            new("A SATELLITE WITH A LONG NAME", Moment.Aos.AddHours(7), Angle.FromDegrees(45), "go: 9 of 11 min, night below"),
            new("PETREL 2", Moment.Aos.AddHours(9), Angle.FromDegrees(22), "fair: 7 of 10 min, night below"),
        ],
        1);

    /// <summary>One item in every state, the longest words among them.</summary>
    internal static Snapshot Checked(Snapshot now, PassChoice? choice) => now with
    {
        Settings = Moment.Settings with { Choice = choice },
        Readiness = new ReadinessNow(
            [
                new(ReadinessTopic.Signal, ReadinessState.Green, "tcp 127.0.0.1:17640: 1482 records"),
                new(ReadinessTopic.Noise, ReadinessState.Red, "SNR 9.1 ± 0.3 dB: somebody is there", "turn the dish away"),
                new(ReadinessTopic.Clock, ReadinessState.Open, "compared with nothing", "--clock ntp://HOST"),
                new(ReadinessTopic.Elements, ReadinessState.Green, "1.3 days old, usually ±0.3 s"),
                new(ReadinessTopic.Disk, ReadinessState.Green, "75.4 GB free, 9.4 GB needed"),
                new(ReadinessTopic.Sound, ReadinessState.Open, "left, then right, then both?", "Space: so it came   X: it did not"),
                new(ReadinessTopic.Sun, ReadinessState.Open, "holds 18 to 22 skipped: sun 1 degrees off", "follow the calls"),
                new(ReadinessTopic.Skyline, ReadinessState.Green, "first sight 6 degrees high in azimuth 174, last 6 degrees"),
                new(ReadinessTopic.Settings, ReadinessState.Red, "2 mistakes passed over", "cockpit settings check"),
            ],
            SoundAsked: true),
    };

    private static Snapshot Stale(Snapshot now) => now with
    {
        Link = now.Link with { Last = Moment.Heard(4), TrendDbPerSec = null, History = [.. now.Link.History[..^8], .. now.Link.History[^8..].Select(p => p with { MeasuredDb = null })] },
        Feeds = [Feed(FeedHealth.Stale, "10:20:16")],
        Message = Say("The signal feed is silent since 10:20:16.", MessageWeight.Caution, 318),
    };

    private static Snapshot Lost(Snapshot now) => now with
    {
        Link = now.Link with { Last = Moment.Heard(34), MeasuredDb = null, TrendDbPerSec = null, LockLostFor = TimeSpan.FromSeconds(33), History = [.. now.Link.History[..^68], .. now.Link.History[^68..].Select(p => p with { MeasuredDb = null })] },
        Feeds = [Feed(FeedHealth.Absent, "10:20:06") with { Trouble = "connection refused" }],
        Message = Say("The signal feed tcp://localhost:4700 is lost: connection refused; trying again.", MessageWeight.Warning, 308),
    };

    private static Snapshot Journal(Snapshot now) => now with
    {
        Desk = now.Desk with { JournalTrouble = "no space left on the disk", Speaker = "bell", SpeakerTrouble = "no sound device" },
        Message = Say("The session is not written any more: no space left on the disk.", MessageWeight.Warning, 355),
    };

    private static Snapshot Sunny(Snapshot now)
    {
        Core.Sky.LookAngles look = now.Sky!.Now!.Value;
        Core.Sky.LookAngles place = look with { Azimuth = look.Azimuth + Angle.FromDegrees(7), Elevation = look.Elevation - Angle.FromDegrees(4) };
        return now with
        {
            Sky = now.Sky with { Sun = new SunNow(place, now.Utc.AddSeconds(41), now.Utc.AddSeconds(110), Angle.FromDegrees(6)) },
            Message = Say("the sun is near the beam", MessageWeight.Caution, 600),
        };
    }

    private static Snapshot Tuned(Snapshot now) => now with
    {
        Link = now.Link with { TuneTo = new Frequency(1_701_500_000 + now.Link.Doppler!.Value.Hertz), Carrier = new CarrierNow(-12_437, new SlipNow(2.62, 0.14, IsWrong: true)) },
        Message = Say("Doppler is 2.6 s early (±0.1): clock wrong, or elements old", MessageWeight.Caution, 236),
    };

    private static Snapshot Turning(Snapshot now) => now with
    {
        Aim = now.Aim with { Overhead = new BigTurn(now.Sky!.Pass.Tca.Utc, OverheadWay.Turn, Angle.FromDegrees(126), Angle.Zero, 3.2, 7.6, 21.4) },
    };

    private static Snapshot Read(Snapshot now) => now with
    {
        Aim = now.Aim with { Reason = AimReason.Search, Compass = new CompassReading(Angle.FromDegrees(347), Angle.FromDegrees(36)) },
    };
}
