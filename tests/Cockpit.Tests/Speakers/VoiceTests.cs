using Cockpit.Core.Sound;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Cues;
using Cockpit.Session.State;
using Cockpit.Tests.Sound;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Speakers;

public sealed class VoiceTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void A_cue_is_in_the_very_next_block()
    {
        Voice voice = new(_time);
        Render(voice, 100);
        voice.Accept(Plan(CueTable.OnTarget));
        float[] block = Render(voice, 40);
        Assert.InRange(Array.FindIndex(block, s => s != 0f), 0, 20);
    }

    [Fact]
    public void Two_plans_between_two_blocks_lose_no_cue()
    {
        Voice voice = new(_time);
        voice.Accept(Plan(CueTable.Warning("recording stopped")));
        voice.Accept(CuePlan.Silence);
        List<Ear.Note> notes = Ear.Notes(Ear.Channel(Render(voice, 1000), 0));
        Assert.Equal(3, notes.Count);
    }

    [Fact]
    public void A_cue_that_no_device_took_in_time_is_dropped()
    {
        Voice voice = new(_time);
        voice.Accept(Plan(CueTable.OnTarget));
        _time.Advance(TimeSpan.FromSeconds(0.6));
        Assert.All(Render(voice, 100), s => Assert.Equal(0f, s));
    }

    [Fact]
    public void A_dead_device_does_not_make_the_cues_pile_up()
    {
        Voice voice = new(_time);
        for (int i = 0; i < 1000; i++) { voice.Accept(Plan(CueTable.Heartbeat)); }

        voice.Accept(Plan(CueTable.Warning("recording stopped")));
        Assert.Equal(3, Ear.Notes(Ear.Channel(Render(voice, 1000), 0)).Count);
    }

    [Fact]
    public void The_peak_tone_follows_the_latest_plan_and_ends_when_no_plan_comes()
    {
        Voice voice = new(_time);
        voice.Accept(new CuePlan([], new PeakTone(500, 0), 0));
        voice.Accept(new CuePlan([], new PeakTone(700, 0), 0));
        float[] left = Ear.Channel(Render(voice, 300), 0);
        Assert.Equal(700, Ear.Pitch(left.AsSpan(4800)), 1.0);
        _time.Advance(TimeSpan.FromSeconds(1.1));
        Render(voice, 50);
        Assert.All(Render(voice, 50), s => Assert.Equal(0f, s));
    }

    [Fact]
    public void Every_cue_that_starts_is_announced_to_those_who_only_ring()
    {
        Voice voice = new(_time);
        int rings = 0;
        voice.Starting += new BellSpeaker(() => rings++).Announce;
        voice.Accept(Plan(CueTable.Warning("recording stopped")));
        voice.Accept(Plan(CueTable.Heartbeat));
        voice.Accept(Plan(CueTable.ClockTick(3)));
        voice.Accept(Plan(MoveWord.For(Cues.PassStage.Move(0.5, 0), Cues.PassStage.Beam, Core.Aim.Mount.Free)!));
        Assert.Equal(2, rings);
    }

    [Fact]
    public void Playing_allocates_nothing_between_cues()
    {
        Voice voice = new(_time);
        float[] block = new float[480];
        CuePlan plan = new([], new PeakTone(700, 4), 0);
        Turn();
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 100; i++) { Turn(); }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);

        void Turn()
        {
            voice.Accept(plan);
            voice.Render(block);
        }
    }

    private static CuePlan Plan(Cue cue) => new([cue], null, 0);

    private static float[] Render(Voice voice, double milliseconds)
    {
        float[] sound = new float[SoundFormat.Frames(milliseconds) * 2];
        voice.Render(sound);
        return sound;
    }
}
