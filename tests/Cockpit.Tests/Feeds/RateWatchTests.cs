using Cockpit.Devices.Feeds.Samples;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Feeds;

public sealed class RateWatchTests
{
    private readonly FakeTimeProvider _time = new();

    [Theory]
    [InlineData(3_000_000, 2_400_000, "2.40 Msps come, but 3.00 Msps were told")]
    [InlineData(2_400_000, 3_000_000, "3.00 Msps come, but 2.40 Msps were told")]
    public void A_wrong_rate_is_told_with_the_right_one(double told, int real, string remark)
    {
        RateWatch watch = new(told, _time);
        Play(watch, real, 45, burst: 3);
        Assert.StartsWith(remark, watch.Remark, StringComparison.Ordinal);
        Play(watch, (int)told, 45, burst: 3);
        Assert.Null(watch.Remark);
    }

    // The usual mistake, 2.4 for 3.0, is told before a pass is a quarter of a minute old.
    [Fact]
    public void A_rate_that_is_far_off_is_told_within_15_s()
    {
        RateWatch watch = new(3_000_000, _time);
        Play(watch, 2_400_000, 15, burst: 1);
        Assert.StartsWith("2.40 Msps come, but 3.00 Msps were told", watch.Remark, StringComparison.Ordinal);
    }

    // A recorder writes two seconds at once; a clock is wrong by parts in a million.
    [Theory]
    [InlineData(20)]
    [InlineData(1)]
    public void Bursts_and_small_errors_are_no_wrong_rate(int burst)
    {
        RateWatch watch = new(3_000_000, _time);
        Play(watch, 3_000_300, 200, burst);
        Assert.Null(watch.Remark);
    }

    [Fact]
    public void A_sender_that_catches_up_for_a_while_has_no_wrong_rate()
    {
        RateWatch watch = new(3_000_000, _time);
        Play(watch, 3_300_000, 30, burst: 3);
        Assert.Null(watch.Remark);
        Play(watch, 3_000_000, 60, burst: 3);
        Assert.Null(watch.Remark);
    }

    [Fact]
    public void What_is_known_to_be_missing_counts_and_a_gap_of_unknown_length_begins_anew()
    {
        RateWatch watch = new(3_000_000, _time);
        Play(watch, 3_000_000, 15, 1);
        _time.Advance(TimeSpan.FromMinutes(5));
        watch.Restart();
        Play(watch, 3_000_000, 60, 1);
        Assert.Null(watch.Remark);
    }

    private void Play(RateWatch watch, int rate, int seconds, int burst)
    {
        for (int tenth = 1; tenth <= seconds * 10; tenth++)
        {
            _time.Advance(TimeSpan.FromMilliseconds(100));
            if (tenth % burst == 0)
            {
                watch.Came((long)rate * burst / 10);
            }
        }
    }
}
