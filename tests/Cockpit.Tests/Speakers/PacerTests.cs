using Cockpit.Devices.Speakers;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Speakers;

public sealed class PacerTests
{
    private const int Period = 240;
    private const int Buffer = 960;
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void A_file_that_takes_everything_is_kept_twenty_milliseconds_ahead()
    {
        Pacer pacer = new(Buffer, _time);
        int blocks = 0;
        for (int ms = 0; ms < 1000; ms++)
        {
            while (pacer.Wait() == TimeSpan.Zero)
            {
                pacer.Wrote(Period, TimeSpan.Zero);
                blocks++;
            }

            _time.Advance(TimeSpan.FromMilliseconds(1));
        }

        Assert.InRange(blocks * 5.0, 1020.0, 1026.0);
        Assert.Equal(TimeSpan.Zero, pacer.Late);
    }

    [Theory]
    [InlineData(0.999)]
    [InlineData(1.001)]
    public void A_card_with_a_clock_of_its_own_is_never_made_to_wait(double rate)
    {
        Pacer pacer = new(Buffer, _time);
        double held = 0.0;
        for (int i = 0; i < 20_000; i++)
        {
            Assert.Equal(TimeSpan.Zero, pacer.Wait());
            held += Period;
            TimeSpan took = TimeSpan.Zero;
            if (held > Buffer)
            {
                took = TimeSpan.FromSeconds((held - Buffer) / (48000.0 * rate));
                _time.Advance(took);
                held = Buffer;
            }

            pacer.Wrote(Period, took);
        }

        Assert.Equal(100.0 * ((1.0 / rate) - 1.0), pacer.Late.TotalSeconds, 0.01);
    }

    [Fact]
    public void A_stream_that_stalled_goes_on_from_now_and_says_how_late_it_is()
    {
        Pacer pacer = new(Buffer, _time);
        pacer.Wrote(Period, TimeSpan.Zero);
        _time.Advance(TimeSpan.FromMilliseconds(100));
        pacer.Wrote(Period, TimeSpan.Zero);
        Assert.Equal(90.0, pacer.Late.TotalMilliseconds, 0.01);
        Assert.Equal(TimeSpan.Zero, pacer.Wait());
    }
}
