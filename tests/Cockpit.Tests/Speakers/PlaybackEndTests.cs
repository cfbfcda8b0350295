using Cockpit.Devices.Speakers;

namespace Cockpit.Tests.Speakers;

public sealed class PlaybackEndTests
{
    [Fact]
    public void A_player_that_stops_by_itself_says_why()
    {
        using ManualResetEvent stop = new(false);
        PlaybackEnd end = new();
        end.Tell(new InvalidOperationException("unplugged"));
        Assert.True(end.Wait(stop, out Exception? cause));
        Assert.Equal("unplugged", cause?.Message);
    }

    [Fact]
    public void A_player_may_tell_its_end_when_nobody_waits_any_more()
    {
        ManualResetEvent stop = new(true);
        PlaybackEnd end = new();
        Assert.False(end.Wait(stop, out _));
        stop.Dispose();
        Assert.Null(Record.Exception(() => end.Tell(null)));
    }
}
