using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Tests.Dsp;

public sealed class DecodingLoadTests
{
    private const double Rate = 4e6;

    [Fact]
    public void Decoding_ends_where_the_computer_falls_short_and_comes_back_with_room()
    {
        QpskFrameLock frames = new(Rate);
        DecodingLoad load = new([frames], Rate);
        Work(load, share: 0.6, windows: 50);
        Assert.True(frames.Decoding);
        Work(load, share: 0.9, windows: 3);
        Assert.False(frames.Decoding);
        Work(load, share: 0.2, windows: 150);
        Assert.False(frames.Decoding);
        Work(load, share: 0.2, windows: 100);
        Assert.True(frames.Decoding);
        Assert.False(load.IsShort);
    }

    // The samples of a window come in pieces of any size.
    private static void Work(DecodingLoad load, double share, int windows)
    {
        for (int k = 0; k < 4 * windows; k++)
        {
            load.Worked(TimeSpan.FromSeconds(share * 0.025), (long)(Rate * 0.025));
        }
    }
}
