using Cockpit.Devices.Phone;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Phone;

public sealed class PhoneAllowanceTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void Sixty_at_once_and_forty_a_second_are_taken_and_no_more()
    {
        PhoneAllowance allowance = new(_time);
        Assert.Equal(60, Taken(allowance, 100));
        _time.Advance(TimeSpan.FromSeconds(0.5));
        Assert.Equal(20, Taken(allowance, 50));
        _time.Advance(TimeSpan.FromMinutes(10));
        Assert.Equal(60, Taken(allowance, 100));
    }

    [Fact]
    public void A_page_at_its_full_rate_is_never_a_flood_and_one_that_goes_on_over_it_is()
    {
        PhoneAllowance page = new(_time);
        for (int i = 0; i < 60 * 30; i++)
        {
            Assert.True(page.Take());
            _time.Advance(TimeSpan.FromSeconds(1.0 / 30.0));
        }

        PhoneAllowance mad = new(_time);
        int said = 0;
        while (!mad.IsFlood)
        {
            mad.Take();
            said++;
            _time.Advance(TimeSpan.FromMilliseconds(1));
        }

        Assert.InRange(said, 180, 200);
    }

    [Fact]
    public void A_burst_after_a_hole_in_the_network_is_dropped_and_forgiven()
    {
        PhoneAllowance allowance = new(_time);
        Assert.Equal(60, Taken(allowance, 150));
        Assert.False(allowance.IsFlood);
        for (int i = 0; i < 200; i++)
        {
            _time.Advance(TimeSpan.FromMilliseconds(100));
            Assert.True(allowance.Take());
        }

        Taken(allowance, 150);
        Assert.False(allowance.IsFlood);
    }

    private static int Taken(PhoneAllowance allowance, int asked) => Enumerable.Range(0, asked).Count(_ => allowance.Take());
}
