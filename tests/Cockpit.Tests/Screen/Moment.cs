using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Screen;

/// <summary>Builds snapshots by hand: a closed-form pass of the invented PETREL 2 over Skerry Point, seen at a second of it.</summary>
internal static class Moment
{
    public static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    /// <summary>A snapshot some seconds after AOS with a dish that is off by a little.</summary>
    /// <param name="seconds">After AOS, negative = before.</param>
    /// <param name="word">The word.</param>
    /// <param name="highest">Highest elevation of the pass, degrees.</param>
    /// <param name="right">Where the dish is from the satellite: it must go so far right, degrees on the sky.</param>
    /// <param name="up">It must go so far up, degrees.</param>
    public static Snapshot At(double seconds, AimWord word = AimWord.Hold, double highest = 64, double right = 0.8, double up = -0.6)
    {
        CircularPass orbit = new(Aos, Angle.FromDegrees(highest));
        DateTimeOffset utc = Aos + TimeSpan.FromSeconds(seconds);
        Beam beam = Beam.Of(0.8, Frequency.FromMegahertz(1701.5));
        ImmutableArray<PassMoment> samples = HoldPlan.Sample(orbit, Aos, Aos + orbit.Duration, HoldPlan.Step);
        ImmutableArray<Hold> holds = HoldPlan.Make(samples.AsSpan(), beam, new Decibels(0.5));
        LookAngles look = orbit.At(utc)!.Value;
        return new Snapshot(
            1234,
            utc,
            TimeSpan.FromSeconds(120 + seconds),
            Settings,
            Sky(orbit, utc, look, holds),
            Link(utc, look),
            Aim(word, utc, look, holds, beam, right, up),
            [new FeedNow("signal", FeedRole.Signal, "tcp://localhost:4700", FeedHealth.Good, null, null, 1482, 3)],
            new DeskNow("ALSA default", null, null, Muted: false, 0.0),
            null,
            CuePlan.Silence);
    }

    public static SessionSettings Settings { get; } = new()
    {
        ProgramVersion = "0.1.0",
        Kind = SessionKind.Live,
        StationName = "Skerry Point",
        Station = new Site(Angle.FromDegrees(58.2), Angle.FromDegrees(-6.4), 30),
        SatelliteName = "PETREL 2",
        MagneticDeclination = Angle.FromDegrees(-2.4),
        Feeds = [FeedSettings.Signal],
    };

    private static SkyNow Sky(CircularPass orbit, DateTimeOffset utc, LookAngles look, ImmutableArray<Hold> holds)
    {
        Pass pass = orbit.Pass;
        (PassPhase phase, DateTimeOffset next) = utc < pass.Aos.Utc - TimeSpan.FromSeconds(60) ? (PassPhase.Waiting, pass.Aos.Utc)
            : utc < pass.Aos.Utc ? (PassPhase.Ready, pass.Aos.Utc)
            : utc < pass.Tca.Utc ? (PassPhase.Climbing, pass.Tca.Utc)
            : utc < pass.Los.Utc ? (PassPhase.Sinking, pass.Los.Utc)
            : (PassPhase.Over, utc);
        return new SkyNow(
            pass,
            look,
            phase,
            next - utc,
            TimeSpan.FromDays(1.25),
            2.5,
            HoldPlan.Sample(orbit, pass.Aos.Utc, pass.Los.Utc, TimeSpan.FromSeconds(pass.Duration.TotalSeconds / 60)),
            [.. new[] { 10, 20, 30 }.Select(s => orbit.At(utc + TimeSpan.FromSeconds(s))!.Value)],
            holds,
            new SunNow(new LookAngles(Angle.FromDegrees(188), Angle.FromDegrees(11.5), 1.48e8, 0), null, null, null));
    }

    private static AimNow Aim(AimWord word, DateTimeOffset utc, LookAngles look, ImmutableArray<Hold> holds, Beam beam, double right, double up)
    {
        Hold? current = holds.LastOrDefault(hold => hold.FromUtc <= utc && utc < holds[^1].ToUtc);
        Hold? target = current is null ? (utc < holds[0].FromUtc ? holds[0] : null) : holds.FirstOrDefault(hold => hold.Number == current.Number + 1);
        (Angle azimuth, Angle elevation) = AimErrors.Moved(look.Azimuth, look.Elevation, Angle.FromDegrees(-right), Angle.FromDegrees(-up));
        bool lost = word == AimWord.Search;
        Pointing? dish = new(azimuth, elevation, Angle.FromDegrees(lost ? 7.5 : 2.1), PointingOrigin.Level);
        BeliefRegion region = new(Angle.FromDegrees(lost ? 9.5 : 2.7), Angle.FromDegrees(lost ? 4.5 : 1.3), Angle.FromDegrees(35), Angle.FromDegrees(lost ? 8.1 : 2.4), Angle.FromDegrees(lost ? 17.5 : 5.1));
        AimError? error = dish is null ? null : AimErrors.Between(dish, look);
        AimError? nudge = dish is null || target is null ? null : AimErrors.Between(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation);
        return new AimNow(
            word,
            word == AimWord.Search ? AimReason.Search : AimReason.Follow,
            dish,
            region,
            error,
            nudge,
            Mount.PanTilt,
            target,
            current,
            target?.FromUtc,
            null,
            TimeSpan.FromSeconds(72),
            beam.HalfPowerWidth,
            error is { } e ? beam.LossAt(e.Total) : null,
            null,
            null,
            new PeakNote(12.4, 11.2),
            null,
            null);
    }

    /// <summary>The same measurement, this old.</summary>
    public static Reading<SignalSample> Heard(double secondsAgo) => new(new SignalSample { SnrDb = 11.2, Locked = true }, TimeSpan.FromSeconds(secondsAgo));

    private static LinkNow Link(DateTimeOffset utc, LookAngles look)
    {
        Xoshiro256 chance = new(7);
        ImmutableArray<LevelPoint> history = [.. Enumerable.Range(0, 120).Select(i =>
        {
            double expected = 10.0 + (i / 40.0);
            double swing = 2.2 * Math.Pow(Math.Sin(i / 19.0), 2);
            return new LevelPoint(utc - TimeSpan.FromSeconds((119 - i) / 2.0), expected - swing + (0.3 * chance.NextNormal()), expected);
        })];
        double shift = -look.RangeRateKmPerSec * 1000 / Frequency.SpeedOfLightMetresPerSecond * 1701.5e6;
        return new LinkNow(
            new Frequency(shift),
            -118,
            Heard(0),
            SteeringQuantity.SignalToNoise,
            11.2,
            13.0,
            -0.5,
            history,
            null,
            Tally: new PassTally(TimeSpan.FromSeconds(209), TimeSpan.FromSeconds(197), TimeSpan.FromSeconds(655)),
            AheadDb: [13.3, 13.6, 13.8]);
    }
}
