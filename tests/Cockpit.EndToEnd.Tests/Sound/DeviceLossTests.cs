using System.Collections.Concurrent;
using Cockpit.Core.Sound;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.EndToEnd.Tests.Sound;

public sealed class DeviceLossTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    [Fact]
    public async Task A_device_that_dies_is_replaced_by_the_bell_and_comes_back()
    {
        using BlockingCollection<(string Device, string? Trouble)> reports = [];
        using ManualResetEventSlim pull = new();
        int opened = 0;
        int rings = 0;
        Voice voice = new(TimeProvider.System);
        await using StreamSpeaker speaker = new(
            voice,
            [() => Interlocked.Increment(ref opened) == 1 ? new Pulled(pull) : new Pulled(null)],
            () => Interlocked.Increment(ref rings),
            (device, trouble) => reports.Add((device, trouble)));
        voice.Starting = speaker.Announce;

        Assert.Equal(("plug", null), Next(reports));
        voice.Accept(new CuePlan([CueTable.Caution("lock lost")], null, 0));
        Assert.Equal(0, rings);

        pull.Set();
        Assert.Equal(("bell", "the card was pulled out"), Next(reports));
        voice.Accept(new CuePlan([CueTable.Caution("lock lost")], null, 0));
        Assert.Equal(1, rings);

        Assert.Equal(("plug", null), Next(reports));
        Assert.Equal("plug", speaker.Device);
    }

    [Fact]
    public async Task The_second_device_is_taken_when_the_first_does_not_open()
    {
        using BlockingCollection<(string Device, string? Trouble)> reports = [];
        await using StreamSpeaker speaker = new(
            new Voice(TimeProvider.System),
            [() => throw new SoundDeviceException("no sound device"), () => new Pulled(null)],
            () => { },
            (device, trouble) => reports.Add((device, trouble)));
        Assert.Equal(("plug", null), Next(reports));
    }

    [Fact]
    public async Task A_fault_in_the_rendering_leaves_the_program_alive_and_the_bell_rings()
    {
        using BlockingCollection<(string Device, string? Trouble)> reports = [];
        await using StreamSpeaker speaker = new(new Broken(), [() => new Pulled(null)], () => { }, (device, trouble) => reports.Add((device, trouble)));
        Assert.Equal(("plug", null), Next(reports));
        Assert.Equal(("bell", "the sound failed: broken"), Next(reports));
    }

    private static (string Device, string? Trouble) Next(BlockingCollection<(string Device, string? Trouble)> reports)
    {
        Assert.True(reports.TryTake(out (string Device, string? Trouble) report, Patience), "no report came");
        return report;
    }

    private sealed class Broken : ISoundSource
    {
        public void Render(Span<float> interleaved) => throw new InvalidOperationException("broken");
    }

    /// <summary>A device that plays until it is pulled out.</summary>
    private sealed class Pulled(ManualResetEventSlim? pull) : ISoundOutput
    {
        public string Name => "plug";

        public TimeSpan Late => TimeSpan.Zero;

        public void Play(ISoundSource source, WaitHandle stop)
        {
            float[] block = new float[480];
            while (!stop.WaitOne(5))
            {
                source.Render(block);
                if (pull is { IsSet: true }) { throw new SoundDeviceException("the card was pulled out"); }
            }
        }

        public void Dispose()
        {
        }
    }
}
