using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Speakers;

/// <summary>Opens the speaker that was asked for and says which one it became.</summary>
public static class SpeakerFactory
{
    /// <summary>Source name of the events about sound.</summary>
    public const string Source = "sound";

    /// <summary>Opens a speaker; never fails: without a device it is the bell, and an event says so.</summary>
    /// <param name="choice">What was asked for.</param>
    /// <param name="voice">What is to be heard.</param>
    /// <param name="sink">Takes <see cref="SpeakerChanged"/>.</param>
    /// <param name="ring">Rings the terminal bell; the program owns the terminal.</param>
    /// <param name="time">The clock that blocks are paced by.</param>
    public static ISpeaker Open(SoundChoice choice, Voice voice, IEventSink sink, Action ring, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(voice);
        ArgumentNullException.ThrowIfNull(sink);
        ISpeaker speaker = choice.Place switch
        {
            SoundPlace.Off => new SilentSpeaker(),
            SoundPlace.Bell => new BellSpeaker(ring),
            _ => new StreamSpeaker(voice, Openers(choice, time), ring, (device, trouble) => sink.Publish(Source, new SpeakerChanged(device, trouble))),
        };
        if (choice.Place is SoundPlace.Off or SoundPlace.Bell) { sink.Publish(Source, new SpeakerChanged(speaker.Device, null)); }

        voice.Starting += speaker.Announce;
        return speaker;
    }

    private static List<Func<ISoundOutput>> Openers(SoundChoice choice, TimeProvider time)
    {
        if (choice.Place == SoundPlace.File) { return [() => new PumpedOutput(WavSink.Open(choice.Path), time)]; }

        if (OperatingSystem.IsWindows()) { return [WindowsOutput.OpenWasapi, WindowsOutput.OpenWinMm]; }

        return OperatingSystem.IsLinux()
            ? [() => new PumpedOutput(AlsaSink.Open("default"), time)]
            : [() => throw new SoundDeviceException("no sound on this system yet, the terminal bell rings instead", mayReturn: false)];
    }
}
