using Cockpit.Core.Sound;

namespace Cockpit.Tests.Sound;

public sealed class MixerTests
{
    private static readonly Tone Word = new(0, 200, 660, 0, 0, Timbre.Plain);

    [Fact]
    public void A_less_urgent_cue_is_dropped_and_not_queued()
    {
        Mixer mixer = new();
        Assert.True(mixer.Start(1, [new Tone(0, 100, 440, 0, 0, Timbre.Rich)]));
        Assert.False(mixer.Start(3, [Word]));
        float[] after = Render(mixer, 300)[(SoundFormat.Frames(101) * 2)..];
        Assert.All(after, sample => Assert.Equal(0f, sample));
        Assert.True(mixer.Start(3, [Word]));
    }

    [Fact]
    public void A_more_urgent_cue_silences_the_other_within_ten_milliseconds()
    {
        Mixer mixer = new();
        mixer.Start(3, [Word]);
        Render(mixer, 50);
        mixer.Start(1, [new Tone(0, 200, 440, 0, 0, Timbre.Rich)]);
        float[] left = Ear.Channel(Render(mixer, 200), 0);
        Span<float> later = left.AsSpan(SoundFormat.Frames(12), SoundFormat.Frames(100));
        Assert.True(Ear.Amplitude(later, 660) < 1e-3 * Ear.Amplitude(later, 440));
    }

    [Fact]
    public void A_clip_follows_its_notes_in_both_ears_and_keeps_the_floor_until_its_end()
    {
        Mixer mixer = new();
        float[] clip = new float[SoundFormat.Frames(300)];
        Array.Fill(clip, 0.1f);
        Assert.True(mixer.Start(2, [Word], clip));
        float[] sound = Render(mixer, 400);
        int from = SoundFormat.Frames(280);
        Assert.Equal(0f, sound[2 * (from - 2)]);
        Assert.Equal((0.1f, 0.1f), (sound[2 * (from + 2)], sound[(2 * (from + 2)) + 1]));
        Assert.False(mixer.Start(3, [Word]));
        Render(mixer, 181);
        Assert.True(mixer.Start(3, [Word]));
    }

    [Fact]
    public void A_clip_is_cut_within_ten_milliseconds_by_what_is_more_urgent()
    {
        Mixer mixer = new();
        float[] clip = new float[SoundFormat.Frames(1000)];
        Array.Fill(clip, 0.1f);
        mixer.Start(3, [], clip);
        Render(mixer, 100);
        mixer.Start(1, [new Tone(500, 100, 440, 0, 0, Timbre.Rich)]);
        float[] after = Render(mixer, 200);
        Assert.All(after[(2 * SoundFormat.Frames(10))..], sample => Assert.Equal(0f, sample));
        Assert.NotEqual(0f, after[0]);
    }

    [Theory]
    [InlineData(3, 0.0)]
    [InlineData(1, 300.0)]
    public void The_peak_tone_makes_room_for_a_cue_with_a_gap_before_it_and_longer_for_an_alarm(int priority, double afterMs)
    {
        Mixer mixer = new();
        mixer.SetPeak(770, 0);
        Render(mixer, 200);
        mixer.Start(priority, [new Tone(0, 100, 440, 0, 0, Timbre.Plain)]);
        float[] left = Ear.Channel(Render(mixer, 700), 0);
        Assert.All(left[SoundFormat.Frames(12)..SoundFormat.Frames(109)], s => Assert.Equal(0f, s));
        Span<float> during = left.AsSpan(SoundFormat.Frames(125), SoundFormat.Frames(70));
        Assert.True(Ear.Amplitude(during, 770) < 0.01 * Ear.Amplitude(during, 440));
        int first = Array.FindIndex(left, SoundFormat.Frames(211), s => Math.Abs(s) > 1e-3);
        Assert.InRange(Ear.Milliseconds(first), 210 + afterMs, 210 + afterMs + 10);
    }

    [Theory]
    [InlineData(4.0)]
    [InlineData(2.0)]
    public void The_peak_tone_pulses_half_on_half_off_at_its_rate(double rate)
    {
        Mixer mixer = new();
        mixer.SetPeak(700, rate);
        List<Ear.Note> pulses = Ear.Notes(Ear.Channel(Render(mixer, 2000), 0));
        Assert.Equal((int)(2.0 * rate), pulses.Count);
        Assert.All(pulses, p => Assert.Equal(500.0 / rate, p.LengthMs, 6.0));
        Assert.All(pulses, p => Assert.Equal(700.0, p.PitchHz, 1.0));
        for (int i = 1; i < pulses.Count; i++) { Assert.Equal(1000.0 / rate, pulses[i].StartMs - pulses[i - 1].StartMs, 2.0); }
    }

    [Fact]
    public void Blocks_of_any_size_give_the_same_sound()
    {
        float[] whole = Play(4800);
        foreach (int frames in new[] { 1, 37, 240, 1023 }) { Assert.Equal(whole, Play(frames)); }

        static float[] Play(int frames)
        {
            Mixer mixer = new();
            mixer.SetPeak(600, 4);
            mixer.Start(3, [Word, new Tone(20, 50, 900, -6, 6, Timbre.Rich)]);
            List<float> sound = [];
            while (sound.Count < 4800 * 2)
            {
                float[] block = new float[Math.Min(frames * 2, (4800 * 2) - sound.Count)];
                mixer.Render(block);
                sound.AddRange(block);
            }

            return [.. sound];
        }
    }

    [Fact]
    public void Rendering_allocates_nothing()
    {
        Mixer mixer = new();
        float[] block = new float[480];
        short[] pcm = new short[480];
        Turn(mixer, block, pcm);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 200; i++) { Turn(mixer, block, pcm); }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);

        static void Turn(Mixer mixer, float[] block, short[] pcm)
        {
            mixer.SetPeak(700, 4);
            mixer.SetVolume(-3);
            mixer.Start(3, [Word]);
            mixer.Render(block);
            Pcm16.Convert(block, pcm);
        }
    }

    [Fact]
    public void More_tones_than_places_do_no_harm()
    {
        Mixer mixer = new();
        Assert.True(mixer.Start(3, Enumerable.Repeat(Word, 100).ToArray()));
        Assert.True(Render(mixer, 100).Max(Math.Abs) <= Level.Amplitude(Level.CeilingDbfs) + 1e-6);
    }

    [Fact]
    public void Conversion_to_16_bits_rounds_and_clips()
    {
        short[] pcm = new short[5];
        Pcm16.Convert([0f, 1f, -2f, 0.5f, float.NaN], pcm);
        Assert.Equal([0, 32767, -32767, 16384, 0], pcm);
    }

    private static float[] Render(Mixer mixer, double milliseconds)
    {
        float[] sound = new float[SoundFormat.Frames(milliseconds) * 2];
        mixer.Render(sound);
        return sound;
    }
}
