using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Rehearsal;
using Cockpit.Tests.Computers;

namespace Cockpit.Tests.Rehearsal;

public sealed class PlannedSignalTests
{
    private readonly SkyPlan _sky = new VirtualPass(highest: 60).Sky;

    [Fact]
    public void It_is_what_the_simulated_receiver_measures_with_the_dish_in_the_plan()
    {
        PlannedSignal signal = new(_sky, VirtualPass.Settings, DishMotion.Plan, 5);
        SimulatedReceiver receiver = new(_sky.Track, Beam.Of(0.8, VirtualPass.Settings.Downlink), 0.8, 5);
        for (int i = 0; i < 3000; i++)
        {
            DateTimeOffset utc = _sky.Pass.Aos.Utc + (SimulatedReceiver.Step * i);
            Hold hold = _sky.Holds.Last(h => h.FromUtc <= utc);
            Assert.Equal(receiver.Measure(utc, hold.Azimuth, hold.Elevation), signal.At(utc));
        }
    }

    [Fact]
    public void A_dish_that_stands_still_sees_the_satellite_only_at_the_culmination()
    {
        double?[] Levels(DishMotion motion)
        {
            PlannedSignal signal = new(_sky, VirtualPass.Settings, motion, 5);
            return [.. Enumerable.Range(0, (int)_sky.Pass.Duration.TotalSeconds).Select(s => signal.At(_sky.Pass.Aos.Utc.AddSeconds(s)).SnrDb)];
        }

        double?[] plan = Levels(DishMotion.Plan);
        double?[] still = Levels(DishMotion.Still);
        int tca = (int)(_sky.Pass.Tca.Utc - _sky.Pass.Aos.Utc).TotalSeconds;
        Assert.Equal(plan[tca]!.Value, still[tca]!.Value, 0.6);
        Assert.True(plan[tca - 150] > still[tca - 150] + 6.0);
    }

    [Fact]
    public void Asked_seldom_it_goes_on_in_steps_and_asked_twice_it_says_the_same()
    {
        PlannedSignal signal = new(_sky, VirtualPass.Settings, DishMotion.Plan, 5);
        DateTimeOffset utc = _sky.Pass.Tca.Utc;
        SignalSample first = signal.At(utc);
        Assert.Same(first, signal.At(utc.AddSeconds(0.05)));
        Assert.True(signal.At(utc.AddHours(3)).Locked is false);
    }
}
