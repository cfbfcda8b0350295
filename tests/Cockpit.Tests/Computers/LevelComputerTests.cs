using Cockpit.Core.Signal;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Computers;

public sealed class LevelComputerTests
{
    private static readonly DateTimeOffset Opened = new(2026, 11, 25, 10, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_level_is_the_mean_of_half_a_second_and_the_trend_a_line_through_two()
    {
        LinkNow link = Run(30, i => new SignalSample { LevelDb = -60 + (0.2 * i) }).Link;
        Assert.Equal(SteeringQuantity.Level, link.Quantity);
        Assert.Equal(-60 + (0.2 * 27), link.MeasuredDb!.Value, 1e-9); // the middle of the last five, 25 to 29
        Assert.Equal(2.0, link.TrendDbPerSec!.Value, 1e-9);
        Assert.Null(link.ExpectedDb);
        Assert.Null(link.Doppler);
    }

    [Theory]
    [InlineData(1.9, Freshness.Fresh)]
    [InlineData(2.1, Freshness.Stale)]
    [InlineData(9.9, Freshness.Stale)]
    [InlineData(10.1, Freshness.Absent)]
    public void A_silent_feed_is_stale_after_two_seconds_and_absent_after_ten(double silent, Freshness freshness)
    {
        LinkNow link = Run(30, _ => new SignalSample { SnrDb = 7 }).Step(2.9 + silent, new Ticked()).Link;
        Assert.Equal(freshness, link.Last!.Value.Freshness);
        Assert.Equal(freshness != Freshness.Absent, link.MeasuredDb is not null);
        Assert.Equal(freshness == Freshness.Fresh, link.TrendDbPerSec is not null);
    }

    [Fact]
    public void The_history_has_a_point_for_every_half_second_and_gaps_stay_gaps()
    {
        LevelBench bench = Run(100, i => new SignalSample { SnrDb = i / 5 }).Step(15.0, new Ticked());
        LinkNow link = bench.Link;
        Assert.Equal(30, link.History.Length);
        Assert.Equal(Enumerable.Range(0, 20).Select(i => (double?)i), link.History.Take(20).Select(p => p.MeasuredDb));
        Assert.All(link.History.Skip(20), p => Assert.Null(p.MeasuredDb));
        Assert.All(link.History.Zip(link.History.Skip(1)), pair => Assert.Equal(0.5, (pair.Second.Utc - pair.First.Utc).TotalSeconds, 1e-6));
        Assert.Equal(120, bench.Step(500.0, new Ticked()).Link.History.Length);
    }

    [Fact]
    public void Lock_is_lost_from_the_first_sample_without_it()
    {
        LevelBench bench = Run(40, i => new SignalSample { SnrDb = 5, Locked = i < 20 });
        Assert.Equal(1.9, bench.Link.LockLostFor!.Value.TotalSeconds, 1e-6);
        Assert.Null(bench.Step(4.1, new SignalMeasured("signal", new SignalSample { SnrDb = 5, Locked = true })).Link.LockLostFor);
    }

    [Fact]
    public void A_change_of_quantity_starts_a_new_scale()
    {
        LinkNow link = Run(30, _ => new SignalSample { LevelDb = -60 }).Step(3.0, new SignalMeasured("signal", new SignalSample { SnrDb = 8 })).Link;
        Assert.Equal(SteeringQuantity.SignalToNoise, link.Quantity);
        Assert.Equal(8.0, link.MeasuredDb);
    }

    // First-order Doppler of 1.7 GHz at 6.5 km/s: f v / c = 36.86 kHz (c from the SI brochure, 9th ed.).
    [Fact]
    public void Doppler_is_positive_while_the_satellite_comes_and_its_rate_is_its_slope()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: 0).Go(1);
        double carrier = VirtualPass.Settings.Downlink.Hertz;
        Assert.Equal(carrier * -pass.Look.RangeRateKmPerSec / 299792.458, pass.Link.Doppler!.Value.Hertz, 1e-6);
        Assert.True(pass.Link.Doppler.Value.Hertz > 25e3);
        double before = pass.Link.Doppler.Value.Hertz;
        pass.Go(10);
        Assert.Equal((pass.Link.Doppler!.Value.Hertz - before) / 10, pass.Link.DopplerRateHzPerSec!.Value, 2.0);
        Assert.True(pass.Link.DopplerRateHzPerSec < 0);
    }

    [Fact]
    public void The_expectation_follows_the_measured_scale()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: 100).Go(3);
        Assert.NotNull(pass.Link.ExpectedDb);
        pass.Press(OperatorKey.Peaked);
        pass.Go(60);
        Assert.Equal(pass.Link.MeasuredDb!.Value, pass.Link.ExpectedDb!.Value, 3.0);
    }

    [Fact]
    public void C_over_N0_is_expected_from_the_budget_before_any_mark()
    {
        VirtualPass pass = new(startsAfterAos: 300) { FeedWorks = false };
        Assert.Null(pass.Link.ExpectedDb);
        pass.Measure(new SignalSample { Cn0DbHz = 70 });
        pass.Go(0.6);
        Assert.Equal(VirtualPass.Law.ShapeDb(pass.Look), pass.Link.ExpectedDb!.Value, 3.0);
    }

    [Fact]
    public void The_floor_is_known_once_it_was_seen_below_the_horizon_or_well_under_a_signal()
    {
        VirtualPass early = new VirtualPass(startsAfterAos: -100).Go(4);
        Assert.Equal(-5.0, early.Link.FloorDb!.Value, 1e-9);
        Assert.True(early.Link.NoSignalFor > TimeSpan.FromSeconds(2));

        VirtualPass late = new VirtualPass(startsAfterAos: 300).Go(4);
        Assert.Null(late.Link.FloorDb);
        late.Dish = (late.Look.Azimuth.Degrees + 90, 0);
        late.Go(4);
        Assert.NotNull(late.Link.FloorDb);
        Assert.NotNull(late.Link.NoSignalFor);
    }

    private static LevelBench Run(int samples, Func<int, SignalSample> sample)
    {
        LevelBench bench = new();
        for (int i = 0; i < samples; i++)
        {
            bench.Step(i * 0.1, new SignalMeasured("signal", sample(i)));
        }

        return bench;
    }

    /// <summary>Level and expectation without a pass and without marks.</summary>
    private sealed class LevelBench
    {
        private LevelMemory _level = LevelMemory.Empty;
        private ExpectationMemory _expectation = ExpectationMemory.Empty;

        public LinkNow Link { get; private set; } = ExpectationComputer.Derive(ExpectationMemory.Empty, Input(LevelMemory.Empty, At(0, new Ticked())));

        public LevelBench Step(double seconds, SessionEvent happened)
        {
            Scene scene = At(seconds, happened);
            _level = LevelComputer.Next(_level, scene);
            _expectation = ExpectationComputer.Next(_expectation, Input(_level, scene));
            Link = ExpectationComputer.Derive(_expectation, Input(_level, scene));
            return this;
        }

        private static ExpectationInput Input(LevelMemory level, Scene scene) => new(scene, LevelComputer.Derive(level, scene), null);

        private static Scene At(double seconds, SessionEvent happened)
        {
            TimeSpan elapsed = TimeSpan.FromSeconds(seconds);
            return new Scene(VirtualPass.Settings, null, null, new Envelope(1, elapsed, Opened + elapsed, "test", happened));
        }
    }
}
