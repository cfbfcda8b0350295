using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Computers;

/// <summary>What lies around a pass: trees, the sun, the part of it that can be received.</summary>
public sealed class PassSurroundingsTests
{
    private static readonly Demo Demo = Demo.Of(7, "test");
    private static readonly DateTimeOffset Before = Demo.StartUtc.AddMinutes(-3);
    private static readonly Lazy<SkyPlan> Open = new(() => SkyPlan.For(Demo.Settings, Before)!);

    [Fact]
    public void The_start_is_the_first_sight_over_the_trees()
    {
        Angle rise = Open.Value.Pass.Aos.Look.Azimuth;
        SessionSettings trees = Demo.Settings with { Skyline = [.. Trees(rise, 15.0)] };
        SkyPlan plan = SkyPlan.For(trees, Before)!;
        Assert.Equal(15.0, plan.Pass.Aos.Look.Elevation.Degrees, 0.1);
        Assert.True(plan.Pass.Aos.Utc > Open.Value.Pass.Aos.Utc.AddSeconds(60));
        Assert.Equal(Open.Value.Pass.Los.Utc, plan.Pass.Los.Utc);
        Assert.Equal(plan.Pass.Aos.Utc, plan.Path[0].Utc);
    }

    [Fact]
    public void The_sun_on_the_way_is_known_before_it_is_reached()
    {
        SkyPlan plan = Open.Value;
        PassMomentAt(plan, 0.6, out DateTimeOffset utc, out LookAngles there);
        BodyTrack sun = new(SkyBody.Sun, Demo.Settings.Station);
        LookAngles place = sun.At(utc)!.Value;
        Angle apart = AimErrors.Separation(place.Azimuth, place.Elevation, there.Azimuth, there.Elevation);

        // A beam just too narrow for the nearest moment of the plan, and one that is wide enough.
        Angle nearest = Angle.FromDegrees(plan.Path.Min(m => Apart(sun, m.Utc, m.Look)));
        Assert.Null(new SunPath(Demo.Settings.Station, plan.Path, nearest / (SunPath.NearBeams * 1.02)).Now(utc).FromUtc);
        SunNow near = new SunPath(Demo.Settings.Station, plan.Path, apart / (SunPath.NearBeams * 0.98)).Now(utc);
        Assert.NotNull(near.FromUtc);
        Assert.Equal(nearest.Degrees, near.Nearest!.Value.Degrees, 0.3);
        Assert.True(near.IsNear(near.FromUtc.Value.AddSeconds(-59)));
        Assert.False(near.IsNear(near.FromUtc.Value.AddSeconds(-61)));
        Assert.True(near.IsNear(utc));
        Assert.Equal(place.Azimuth.Degrees, near.Now!.Value.Azimuth.Degrees, 0.02);
        Assert.Equal(place.Elevation.Degrees, near.Now.Value.Elevation.Degrees, 0.02);
    }

    [Fact]
    public void No_lock_is_missed_before_the_link_budget_expects_one()
    {
        ReceivableSpan span = ReceivableSpan.Of(Open.Value, ExpectedLevel.Of(Demo.Settings))!;
        Assert.True(span.FromUtc > Open.Value.Pass.Aos.Utc.AddSeconds(10));
        Fold fold = Opened(Demo.Settings);
        Assert.Null(Unlocked(fold, span.FromUtc.AddSeconds(-2)).Link.LockLostFor);
        Assert.Equal(3.0, Unlocked(fold, span.FromUtc.AddSeconds(3)).Link.LockLostFor!.Value.TotalSeconds, 0.01);
        Assert.Null(Unlocked(fold, span.ToUtc.AddSeconds(1)).Link.LockLostFor);
    }

    [Fact]
    public void A_lock_that_was_there_is_missed_at_once()
    {
        Fold fold = Opened(Demo.Settings);
        DateTimeOffset early = Open.Value.Pass.Aos.Utc.AddSeconds(3);
        _ = Measured(fold, early, locked: true);
        _ = Measured(fold, early.AddSeconds(1), locked: true);
        _ = Measured(fold, early.AddSeconds(2), locked: false);
        Assert.Equal(1.0, Measured(fold, early.AddSeconds(3), locked: false).Link.LockLostFor!.Value.TotalSeconds, 0.01);
    }

    [Fact]
    public void A_service_that_needs_more_can_be_received_for_less_of_the_pass()
    {
        ReceivableSpan easy = ReceivableSpan.Of(Open.Value, ExpectedLevel.Of(Demo.Settings with { Service = "manchester-665k" }))!;
        ReceivableSpan hard = ReceivableSpan.Of(Open.Value, ExpectedLevel.Of(Demo.Settings with { Service = "qpsk-2800k" }))!;
        Assert.True(hard.Length < easy.Length - TimeSpan.FromSeconds(30), $"{hard.Length} {easy.Length}");
    }

    [Fact]
    public void Lines_lost_so_far_are_counted_by_the_lock()
    {
        Fold fold = Opened(Demo.Settings);
        DateTimeOffset aos = Open.Value.Pass.Aos.Utc;
        for (int i = 0; i <= 300; i++) { _ = Measured(fold, aos.AddSeconds(60 + (i / 10.0)), locked: i is < 100 or > 200); }

        PassTally tally = Measured(fold, aos.AddSeconds(90.1), locked: true).Link.Tally!;
        Assert.Equal(90.1, tally.Sent.TotalSeconds, 0.2);
        Assert.Equal(20.0, tally.Received.TotalSeconds, 0.4);
        Assert.InRange(tally.LinesLost, 415, 425);
    }

    [Fact]
    public void What_is_expected_next_follows_the_link_budget()
    {
        Fold fold = Opened(Demo.Settings);
        DateTimeOffset at = Open.Value.Pass.Aos.Utc.AddSeconds(60);
        Snapshot now = Measured(fold, at, locked: true);
        for (int i = 1; i < 30; i++) { now = Measured(fold, at.AddSeconds(i / 10.0), locked: true); }

        Assert.Equal(3, now.Link.AheadDb.Length);
        Assert.True(now.Link.ExpectedDb < now.Link.AheadDb[0] && now.Link.AheadDb[0] < now.Link.AheadDb[1] && now.Link.AheadDb[1] < now.Link.AheadDb[2]);
    }

    private static double Apart(BodyTrack sun, DateTimeOffset utc, LookAngles look) =>
        sun.At(utc) is { } place ? AimErrors.Separation(place.Azimuth, place.Elevation, look.Azimuth, look.Elevation).Degrees : 180.0;

    private static void PassMomentAt(SkyPlan plan, double part, out DateTimeOffset utc, out LookAngles look) =>
        (utc, look) = (plan.Path[(int)(part * plan.Path.Length)].Utc, plan.Path[(int)(part * plan.Path.Length)].Look);

    private static IEnumerable<HorizonPoint> Trees(Angle azimuth, double elevation)
    {
        yield return new(azimuth - Angle.FromDegrees(60), Angle.Zero);
        yield return new(azimuth - Angle.FromDegrees(50), Angle.FromDegrees(elevation));
        yield return new(azimuth + Angle.FromDegrees(50), Angle.FromDegrees(elevation));
        yield return new(azimuth + Angle.FromDegrees(60), Angle.Zero);
    }

    private static Fold Opened(SessionSettings settings)
    {
        Fold fold = new();
        _ = fold.Step(new Envelope(1, TimeSpan.Zero, Before, "test", new SessionOpened(settings)));
        return fold;
    }

    private static Snapshot Unlocked(Fold fold, DateTimeOffset utc)
    {
        _ = Measured(fold, utc, locked: false);
        return Measured(fold, utc, locked: false);
    }

    private static Snapshot Measured(Fold fold, DateTimeOffset utc, bool locked) =>
        fold.Step(new Envelope(2, utc - Before, utc, "signal", new SignalMeasured("signal", new SignalSample { SnrDb = 6.0, Locked = locked })));
}
