using Cockpit.Devices.Speakers;
using Cockpit.Session.Bus;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Speakers;

public sealed class SpeakerFactoryTests
{
    [Theory]
    [InlineData("off", "silent", 0)]
    [InlineData("bell", "bell", 1)]
    public async Task Off_is_silent_and_bell_rings(string text, string device, int rings)
    {
        Sink sink = new();
        Voice voice = new(new FakeTimeProvider());
        int rung = 0;
        Assert.True(SoundChoice.Read(text, "--sound").Try(out SoundChoice choice, out _));
        await using ISpeaker speaker = SpeakerFactory.Open(choice, voice, sink, () => rung++, new FakeTimeProvider());
        Assert.Equal(device, speaker.Device);
        Assert.Equal(new SpeakerChanged(device, null), Assert.Single(sink.Events));
        voice.Accept(new CuePlan([CueTable.Caution("lock lost")], null, 0));
        Assert.Equal(rings, rung);
    }

    [Theory]
    [InlineData("auto", SoundPlace.Auto, "")]
    [InlineData("wav:a b.wav", SoundPlace.File, "a b.wav")]
    [InlineData("wav:/d/x:y.wav", SoundPlace.File, "/d/x:y.wav")]
    public void A_place_for_sound_is_read(string text, SoundPlace place, string path)
    {
        Assert.True(SoundChoice.Read(text, "--sound").Try(out SoundChoice choice, out _));
        Assert.Equal(new SoundChoice(place, path), choice);
    }

    [Theory]
    [InlineData("")]
    [InlineData("wav:")]
    [InlineData("Auto")]
    [InlineData("speaker")]
    public void What_is_no_place_for_sound_gets_one_sentence(string text)
    {
        Assert.False(SoundChoice.Read(text, "--sound").Try(out _, out Core.Formats.ParseError? error));
        Assert.Equal($"--sound: \"{text}\" is no place for sound; write one of auto|off|bell|wav:PATH", error.ToString());
    }

    private sealed class Sink : IEventSink
    {
        public List<SessionEvent> Events { get; } = [];

        public void Publish(string source, SessionEvent sessionEvent) => Events.Add(sessionEvent);
    }
}
