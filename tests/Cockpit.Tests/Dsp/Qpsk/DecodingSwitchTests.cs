using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Tests.Dsp.Qpsk;

public sealed class DecodingSwitchTests
{
    [Fact]
    public void Three_windows_in_a_row_that_take_too_long_switch_it_off()
    {
        var it = new DecodingSwitch();
        Assert.True(Feed(it, 0.9, 2));
        Assert.True(Feed(it, 0.4, 1));
        Assert.True(Feed(it, 0.9, 2));
        Assert.False(Feed(it, 0.9, 1));
    }

    [Fact]
    public void It_comes_back_after_twenty_seconds_with_room_and_not_before()
    {
        var it = new DecodingSwitch();
        Feed(it, 0.9, 3);
        Assert.False(Feed(it, 0.2, 199));
        Assert.True(Feed(it, 0.2, 1));
    }

    [Fact]
    public void A_machine_that_is_always_too_slow_is_tried_less_and_less_often()
    {
        var it = new DecodingSwitch();
        int tried = 0;
        for (int window = 0; window < 20_000; window++)
        {
            bool before = it.On;
            it.Next(before ? 1.5 : 0.3);
            tried += it.On && !before ? 1 : 0;
        }

        Assert.InRange(tried, 6, 12);
    }

    [Fact]
    public void Load_between_the_limits_changes_nothing()
    {
        var it = new DecodingSwitch();
        Assert.True(Feed(it, 0.5, 1000));
        Feed(it, 0.9, 3);
        Assert.False(Feed(it, 0.5, 1000));
    }

    private static bool Feed(DecodingSwitch it, double load, int windows)
    {
        for (int k = 0; k < windows; k++)
        {
            it.Next(load);
        }

        return it.On;
    }
}
