using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Devices.Clocks;
using Cockpit.Session.Events;
using Cockpit.Tests.Feeds;

namespace Cockpit.Tests.Clocks;

public sealed class StampClockTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private readonly SeenEvents _seen = new();
    private readonly StampClock _clock;
    private TimeSpan _corrected;
    private long _sequence;

    public StampClockTests() => _clock = new StampClock(_seen);

    // A program on another computer whose clock is 2.3 s ahead of ours; its lines are 50 to 350 ms under way.
    [Fact]
    public void A_steady_difference_of_a_programs_times_is_told_once_as_it_is()
    {
        Lines(45, ahead: 2.3);
        ClockCompared compared = Assert.Single(_seen.All<ClockCompared>());
        Assert.Equal("the times of signal", compared.Against);
        Assert.InRange(compared.Behind!.Value.TotalSeconds, 2.1, 2.3);
        Assert.InRange(compared.Doubt.TotalSeconds, 0.5, 1.0);
    }

    [Fact]
    public void Nothing_is_told_before_it_is_steady_and_a_new_difference_is_told_again()
    {
        Lines(8, ahead: 2.3);
        Assert.Empty(_seen.All<ClockCompared>());
        Lines(40, ahead: 2.3, from: 8);
        Lines(80, ahead: -1.4, from: 40);
        Assert.Collection(
            _seen.All<ClockCompared>(),
            first => Assert.InRange(first.Behind!.Value.TotalSeconds, 2.1, 2.3),
            second => Assert.InRange(second.Behind!.Value.TotalSeconds, -1.6, -1.4));
    }

    [Fact]
    public void A_correction_by_the_operator_does_not_make_the_clock_of_the_computer_another()
    {
        Lines(30, ahead: 2.3);
        Follow(30, new ClockCorrected(TimeSpan.FromSeconds(2.3), "by the operator"));
        _corrected = TimeSpan.FromSeconds(2.3);
        Lines(90, ahead: 2.3, from: 30);
        Assert.Single(_seen.All<ClockCompared>());
    }

    [Theory]
    [InlineData(3600)]
    [InlineData(-86400 * 30)]
    public void Another_time_zone_or_an_old_recording_is_no_clock_to_go_by(double ahead)
    {
        Lines(40, ahead);
        ClockCompared compared = Assert.Single(_seen.All<ClockCompared>());
        Assert.Null(compared.Behind);
        Assert.Contains("as another time zone or an old recording does", compared.Trouble, StringComparison.Ordinal);
    }

    // A page that is asked five times a second and shows whole seconds: the same again says nothing.
    [Fact]
    public void Whole_seconds_are_doubted_more()
    {
        for (int k = 0; k < 150; k++)
        {
            double at = k * 0.2;
            Follow(at, Measured(Start.AddSeconds(Math.Floor(at + 3.05))));
        }

        ClockCompared compared = Assert.Single(_seen.All<ClockCompared>());
        Assert.InRange(compared.Behind!.Value.TotalSeconds, 2.8, 3.05);
        Assert.True(compared.Doubt > TimeSpan.FromSeconds(1));
    }

    // Sentences that come 0.4 to 0.6 s after the second that they name; the computer is 12 s behind.
    [Fact]
    public void A_receiver_of_navigation_satellites_is_a_clock_less_its_usual_lateness()
    {
        for (int second = 0; second < 40; second++)
        {
            Follow(second + 0.4 + (0.1 * (second % 3)), new PlaceFixed("place", Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520, null, Start.AddSeconds(second + 12)));
        }

        ClockCompared compared = Assert.Single(_seen.All<ClockCompared>());
        Assert.Equal("the navigation satellites", compared.Against);
        Assert.Equal(12.0, compared.Behind!.Value.TotalSeconds, 0.05);
    }

    [Fact]
    public void A_receiver_whose_weeks_ran_over_is_no_clock()
    {
        for (int second = 0; second < 40; second++)
        {
            Follow(second, new PlaceFixed("place", Angle.Zero, Angle.Zero, null, null, Start.AddSeconds(second).AddDays(-1024 * 7)));
        }

        Assert.EndsWith("the receiver's count of weeks ran over", Assert.Single(_seen.All<ClockCompared>()).Trouble, StringComparison.Ordinal);
    }

    private void Lines(double until, double ahead, double from = 0)
    {
        double[] under = [0.15, 0.35, 0.05, 0.25];
        for (int k = (int)(from * 10); k < (int)(until * 10); k++)
        {
            Follow((k / 10.0) + under[k % 4], Measured(Start.AddSeconds((k / 10.0) + ahead)));
        }
    }

    private static SignalMeasured Measured(DateTimeOffset stamp) => new("signal", new SignalSample { Utc = stamp, SnrDb = 9 });

    private void Follow(double seconds, SessionEvent happened)
    {
        TimeSpan elapsed = TimeSpan.FromSeconds(seconds);
        _clock.Follow(new Envelope(++_sequence, elapsed, Start + elapsed + _corrected, "signal", happened));
    }
}
