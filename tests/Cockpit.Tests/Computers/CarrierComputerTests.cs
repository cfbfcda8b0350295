using Cockpit.Core.Chance;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Link;
using Cockpit.Session.Computers.Messages;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Session.State;
using Doppler = Cockpit.Core.Link.Doppler;

namespace Cockpit.Tests.Computers;

public sealed class CarrierComputerTests
{
    private const double OscillatorHz = -14_200;

    [Fact]
    public void The_difference_is_the_error_of_the_oscillators_and_no_slip_is_seen_where_there_is_none()
    {
        CarrierNow carrier = Fly(new VirtualPass(startsAfterAos: 0), 400, slip: 0).Link.Carrier!;
        Assert.Equal(OscillatorHz, carrier.DifferenceHz!.Value, 60.0);
        Assert.NotNull(carrier.Slip);
        Assert.InRange(carrier.Slip.Seconds, -0.2, 0.2);
        Assert.False(carrier.Slip.IsWrong);
    }

    [Fact]
    public void A_slip_of_three_seconds_is_told_in_words_once_the_curve_carries_it()
    {
        VirtualPass pass = new(startsAfterAos: 0);
        Assert.Null(Fly(pass, 60, slip: 3).Link.Carrier!.Slip);
        CarrierNow carrier = Fly(pass, 340, slip: 3).Link.Carrier!;
        Assert.Equal(3.0, carrier.Slip!.Seconds, 0.2);
        Assert.True(carrier.Slip.IsWrong);
        Assert.Matches("^Doppler is [23].[0-9] s early \\(±0.[0-9]\\): clock wrong, or elements old$", Said(pass.Snapshot));
        ClockNow right = new("ntp://127.0.0.1", TimeSpan.FromSeconds(0.1), TimeSpan.FromSeconds(0.05));
        Assert.EndsWith(": the elements are old", Said(pass.Snapshot with { Desk = pass.Snapshot.Desk with { Clock = right } }), StringComparison.Ordinal);
    }

    [Fact]
    public void A_corrected_clock_takes_the_slip_away_at_once()
    {
        VirtualPass pass = new(startsAfterAos: 0);
        Assert.True(Fly(pass, 400, slip: -4).Link.Carrier!.Slip!.IsWrong);
        SlipNow corrected = pass.CorrectClock(-4).Link.Carrier!.Slip!;
        Assert.InRange(corrected.Seconds, -0.3, 0.3);
        Assert.False(corrected.IsWrong);
    }

    [Fact]
    public void A_receiver_that_follows_the_prediction_is_recognised()
    {
        CarrierNow carrier = Fly(new VirtualPass(startsAfterAos: 0), 400, slip: 0, follows: true).Link.Carrier!;
        Assert.Equal(OscillatorHz, carrier.DifferenceHz!.Value, 60.0);
        Assert.InRange(carrier.Slip!.Seconds, -0.2, 0.2);
    }

    [Fact]
    public void Silence_takes_the_difference_away_and_leaves_the_slip()
    {
        VirtualPass pass = Fly(new VirtualPass(startsAfterAos: 0), 400, slip: 1);
        pass.FeedWorks = false;
        CarrierNow carrier = pass.Go(4).Link.Carrier!;
        Assert.Null(carrier.DifferenceHz);
        Assert.Equal(1.0, carrier.Slip!.Seconds, 0.2);
        Assert.Null(new VirtualPass().Go(5).Link.Carrier);
    }

    [Fact]
    public void The_frequency_to_tune_is_the_downlink_with_its_shift_and_nobody_is_told_to_tune_to_the_carrier_of_the_usual_budget()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: 0).Go(1);
        Assert.Null(pass.Link.TuneTo);
        SessionSettings told = VirtualPass.Settings with { Downlink = Frequency.FromMegahertz(1701.3) };
        Scene scene = new(told, pass.Sky, pass.Snapshot.Sky, new Envelope(9, TimeSpan.Zero, pass.Now, Sources.Clock, new Ticked()));
        double tune = CarrierComputer.TuneTo(scene)!.Value.Hertz;
        Assert.Equal(1_701_300_000 * (1 - (pass.Look.RangeRateKmPerSec / 299792.458)), tune, 0.01);
    }

    [Fact]
    public void The_review_tells_the_slip_of_the_whole_pass()
    {
        VirtualPass pass = new(startsAfterAos: 0);
        ReviewRecorder recorder = new();
        recorder.Add(new SessionOpened(VirtualPass.Settings), pass.Snapshot);
        Fly(pass, 400, slip: 2.5, recorder: recorder);
        DopplerSlip told = Reviewer.Make(recorder.Log()!)!.Doppler!;
        Assert.Equal(2.5, told.SlipSeconds, 0.2);
        Assert.InRange(told.Sd, 0.001, 0.2);
    }

    private static string? Said(Snapshot snapshot)
    {
        Envelope envelope = new(9, TimeSpan.Zero, snapshot.Utc, Sources.Clock, new Ticked());
        Snapshot seen = snapshot with { Feeds = [], Link = snapshot.Link with { LockLostFor = null } };
        return MessageComputer.Next(MessageMemory.Empty, new MessageInput(seen, null, new Scene(snapshot.Settings!, null, snapshot.Sky, envelope))).Shown?.Text;
    }

    private static VirtualPass Fly(VirtualPass pass, double seconds, double slip, bool follows = false, ReviewRecorder? recorder = null)
    {
        Xoshiro256 chance = new(4);
        pass.FeedWorks = false;
        for (int k = 0; k < seconds * 5; k++)
        {
            pass.Go(0.2);
            double shift = Shift(pass, pass.Now.AddSeconds(slip)) - (follows ? Shift(pass, pass.Now) : 0);
            SignalSample sample = new() { SnrDb = 10, OffsetHz = shift + OscillatorHz + (15 * chance.NextNormal()) };
            Snapshot after = pass.Measure(sample);
            recorder?.Add(new SignalMeasured(Sources.Signal, sample), after);
        }

        return pass;
    }

    private static double Shift(VirtualPass pass, DateTimeOffset utc) =>
        Doppler.Shift(VirtualPass.Settings.Downlink, pass.Sky.Track.At(utc)!.Value.RangeRateKmPerSec).Hertz;
}
