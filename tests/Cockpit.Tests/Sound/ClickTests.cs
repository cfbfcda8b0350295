using Cockpit.Core.Chance;
using Cockpit.Core.Sound;

namespace Cockpit.Tests.Sound;

public sealed class ClickTests
{
    private const double BlockMs = 5.0;

    [Theory]
    [InlineData(20.0)]
    [InlineData(30.0)]
    [InlineData(60.0)]
    [InlineData(150.0)]
    public void A_tone_never_steps_more_than_its_own_waveform_does(double lengthMs)
    {
        float[] left = Ear.Channel(Ear.Render([new Tone(0, lengthMs, 989, 0, 0, Timbre.Plain)]), 0);
        Assert.True(LargestStep(left) < Bound(989, Level.Amplitude(Level.WordDbfs) * Math.Sqrt(0.5), Timbre.Plain));
    }

    [Fact]
    public void A_cue_that_is_cut_by_a_more_urgent_one_does_not_click()
    {
        Mixer mixer = new();
        mixer.Start(3, [new Tone(0, 400, 660, 0, 15, Timbre.Plain)]);
        List<float> sound = Render(mixer, 100.0);
        Assert.True(mixer.Start(1, [new Tone(0, 200, 440, 0, 0, Timbre.Rich)]));
        sound.AddRange(Render(mixer, 300.0));
        double amplitude = Level.Amplitude(Level.WordDbfs);
        Assert.True(LargestStep(Ear.Channel(sound.ToArray(), 1)) < Bound(660, amplitude, Timbre.Plain) + Bound(440, amplitude, Timbre.Rich));
    }

    [Fact]
    public void The_peak_tone_changes_pitch_and_cadence_without_a_click()
    {
        Xoshiro256 chance = new(11);
        Mixer mixer = new();
        List<float> sound = [];
        for (int i = 0; i < 200; i++)
        {
            mixer.SetPeak(440.0 * Math.Pow(2.0, chance.NextUnit()), new[] { 0.0, 2.0, 4.0 }[chance.NextBelow(3)]);
            if (i % 37 == 36) { mixer.SetPeak(null, 0.0); }

            if (i % 23 == 22) { mixer.Start(3, [new Tone(0, 30, 990, 0, 0, Timbre.Plain)]); }

            sound.AddRange(Render(mixer, 25.0));
        }

        double amplitude = Level.Amplitude(Level.WordDbfs) * Math.Sqrt(0.5);
        double most = Bound(880, amplitude * Level.Amplitude(-3.0), Timbre.Plain) + Bound(990, amplitude, Timbre.Plain);
        float[] left = Ear.Channel(sound.ToArray(), 0);
        Assert.True(left.Max() > 0.05);
        Assert.True(LargestStep(left) < most);
    }

    [Fact]
    public void The_loudest_setting_stays_under_the_ceiling_and_the_limiter_leaves_no_step()
    {
        Mixer mixer = new();
        mixer.SetVolume(100.0);
        mixer.Start(1, [new Tone(0, 500, 440, 12, 15, Timbre.Rich)]);
        float[] right = Ear.Channel(Render(mixer, 600.0).ToArray(), 1);
        double ceiling = Level.Amplitude(Level.CeilingDbfs);
        Assert.InRange(right.Max(Math.Abs), 0.9 * ceiling, ceiling + 1e-6);
        double unlimited = Level.Amplitude(Level.WordDbfs + 12.0 + Level.LoudestDb);
        Assert.True(LargestStep(right) < Bound(440, unlimited, Timbre.Rich));
    }

    [Fact]
    public void Rubbish_in_a_block_does_not_stay_in_the_limiter()
    {
        Limiter limiter = new();
        float[] block = [float.NaN, 0.5f, float.PositiveInfinity, 0.1f, 0.2f, 0.2f];
        limiter.Apply(block);
        Assert.Equal([0f, 0f, 0f, 0f], block[..4]);
        float[] later = new float[4 * SoundFormat.Rate];
        Array.Fill(later, 0.25f);
        limiter.Apply(later);
        Assert.Equal(0.25f, later[^1], 1e-3f);
    }

    /// <summary>Largest step of a sum of partials: slope of the waveform plus slope of the shortest edge.</summary>
    private static double Bound(double hertz, double amplitude, Timbre timbre)
    {
        double sum = 0.0;
        double slope = 0.0;
        int partial = 1;
        foreach (double level in Timbres.LevelsDb(timbre))
        {
            sum += Level.Amplitude(level);
            slope += Level.Amplitude(level) * partial++;
        }

        double edge = Math.PI / 2.0 / SoundFormat.Frames(6.6);   // the rise of a tick of 20 ms
        return amplitude * ((slope * Math.Tau * hertz / SoundFormat.Rate) + (sum * edge));
    }

    private static double LargestStep(float[] samples)
    {
        double largest = Math.Abs(samples[0]);
        for (int i = 1; i < samples.Length; i++) { largest = Math.Max(largest, Math.Abs(samples[i] - samples[i - 1])); }

        return largest;
    }

    private static List<float> Render(Mixer mixer, double milliseconds)
    {
        List<float> sound = [];
        float[] block = new float[SoundFormat.Frames(BlockMs) * 2];
        for (double at = 0.0; at < milliseconds - 1e-9; at += BlockMs)
        {
            mixer.Render(block);
            sound.AddRange(block);
        }

        return sound;
    }
}
