using Cockpit.Devices.Phone;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Phone;

public sealed class PhoneWatchTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void When_nothing_asks_for_the_page_in_20_seconds_firewall_and_network_are_asked_about()
    {
        PhoneWatch watch = new(17643, _time);
        Assert.Equal((PhoneState.Waiting, "is not paired yet: scan the code"), watch.Now());
        _time.Advance(TimeSpan.FromSeconds(19.9));
        Assert.Equal(PhoneState.Waiting, watch.Now().State);
        _time.Advance(TimeSpan.FromSeconds(0.1));
        Assert.Equal((PhoneState.Unreached, "has not come in 20 s: does the firewall let port 17643 in? are phone and laptop in one network?"), watch.Now());
        watch.Asked();
        Assert.Equal(PhoneState.Waiting, watch.Now().State);
    }

    [Fact]
    public void A_page_that_says_nothing_for_a_second_is_asleep_however_open_its_link()
    {
        PhoneWatch watch = new(17643, _time);
        watch.Entered();
        Assert.Equal(PhoneState.Paired, watch.Now().State);
        watch.Heard();
        watch.Turned();
        Assert.Equal((PhoneState.Speaking, ""), watch.Now());
        _time.Advance(TimeSpan.FromSeconds(1.0));
        Assert.Equal(PhoneState.Speaking, watch.Now().State);
        _time.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal((PhoneState.Asleep, "is asleep: wake it"), watch.Now());
        watch.Heard();
        Assert.Equal(PhoneState.Speaking, watch.Now().State);
    }

    [Fact]
    public void A_page_out_of_sight_is_told_at_once_and_outlasts_its_silence()
    {
        PhoneWatch watch = Speaking();
        watch.Hidden(isHidden: true);
        _time.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal((PhoneState.Hidden, "has its page not in front: bring it back"), watch.Now());
        watch.Hidden(isHidden: false);
        watch.Heard();
        Assert.Equal(PhoneState.Speaking, watch.Now().State);
    }

    [Fact]
    public void A_phone_that_goes_and_one_that_is_stopped_are_told_apart_and_a_newcomer_begins_afresh()
    {
        PhoneWatch watch = Speaking();
        watch.Left(PhoneWatch.Lost);
        Assert.Equal((PhoneState.Gone, "is gone: the link broke; its page tries again by itself"), watch.Now());
        watch.Entered();
        Assert.Equal(PhoneState.Paired, watch.Now().State);
        watch.Left(PhoneWatch.Stopped);
        Assert.Equal((PhoneState.Gone, "is stopped on the phone; START there begins again"), watch.Now());
    }

    [Fact]
    public void A_phone_without_sensor_says_why_until_it_turns_all_the_same()
    {
        PhoneWatch watch = new(17643, _time);
        watch.Entered();
        watch.Blind("no sensor");
        Assert.Equal((PhoneState.Blind, "no sensor"), watch.Now());
        watch.Turned();
        Assert.Equal(PhoneState.Speaking, watch.Now().State);
        watch.Failed("the port is gone");
        Assert.Equal((PhoneState.Failed, "the port is gone"), watch.Now());
    }

    private PhoneWatch Speaking()
    {
        PhoneWatch watch = new(17643, _time);
        watch.Entered();
        watch.Turned();
        return watch;
    }
}
