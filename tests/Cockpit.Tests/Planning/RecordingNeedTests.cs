using Cockpit.Planning;

namespace Cockpit.Tests.Planning;

/// <summary>What a recording needs of the disk.</summary>
public sealed class RecordingNeedTests
{
    // ci16: two numbers of two bytes a sample; 3 Msps, twelve minutes and two around them: 3e6 * 4 * 840.
    [Fact]
    public void It_is_rate_times_bytes_times_the_pass_and_a_little_around()
    {
        RecordingNeed need = new(12e6, 20_000_000_000, 1 << 29);
        Assert.Equal(10_080_000_000, need.For(TimeSpan.FromMinutes(12)));
        Assert.True(need.Fits(TimeSpan.FromMinutes(12)));
        Assert.False(need.Fits(TimeSpan.FromMinutes(26)));
    }

    [Fact]
    public void What_is_left_alone_of_the_disk_counts()
    {
        RecordingNeed need = new(12e6, 10_080_000_000 + (1 << 29) - 1, 1 << 29);
        Assert.False(need.Fits(TimeSpan.FromMinutes(12)));
        Assert.True((need with { FreeBytes = need.FreeBytes + 1 }).Fits(TimeSpan.FromMinutes(12)));
    }

    [Fact]
    public void What_is_not_known_is_not_guessed()
    {
        Assert.Null(new RecordingNeed(null, 5, 0).For(TimeSpan.FromMinutes(12)));
        Assert.Null(new RecordingNeed(null, 5, 0).Fits(TimeSpan.FromMinutes(12)));
        Assert.Null(new RecordingNeed(12e6, null, 0).Fits(TimeSpan.FromMinutes(12)));
    }
}
