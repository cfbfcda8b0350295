using System.Globalization;
using Cockpit.Core.Sound;
using Xunit.Abstractions;

namespace Cockpit.Tests.Sound;

public sealed class SpectrumTests(ITestOutputHelper log)
{
    [Theory]
    [InlineData(440.0)]
    [InlineData(555.0)]
    [InlineData(660.0)]
    [InlineData(785.0)]
    [InlineData(989.0)]
    public void A_tone_has_the_pitch_that_was_asked_for_to_a_tenth_of_a_hertz(double hertz)
    {
        float[] left = Ear.Channel(Ear.Render([new Tone(0, 150, hertz, 0, 0, Timbre.Plain)]), 0);
        double heard = Ear.Pitch(left.AsSpan(0, SoundFormat.Frames(150)));
        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{hertz} Hz: {heard - hertz:+0.00;-0.00} Hz"));
        Assert.Equal(hertz, heard, 0.1);
    }

    [Theory]
    [InlineData(Timbre.Plain, new[] { 0.0, -9.0, -15.0 })]
    [InlineData(Timbre.Rich, new[] { 0.0, -3.0, -6.0, -9.0 })]
    public void Partials_have_their_levels_and_nothing_stands_between_them(Timbre timbre, double[] levels)
    {
        float[] left = Ear.Channel(Ear.Render([new Tone(0, 400, 660, 0, 0, timbre)]), 0);
        Span<float> middle = left.AsSpan(SoundFormat.Frames(50), SoundFormat.Frames(300));
        double fundamental = Ear.Amplitude(middle, 660);
        for (int k = 0; k < levels.Length; k++)
        {
            double level = Ear.Decibels(Ear.Amplitude(middle, 660 * (k + 1)) / fundamental);
            log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{timbre} partial {k + 1}: {level:0.000} dB"));
            Assert.Equal(levels[k], level, 0.1);
        }

        foreach (double between in new[] { 330.0, 990.0, 1650.0, 660.0 * (levels.Length + 1), 6000.0 })
        {
            double rest = Ear.Decibels(Ear.Amplitude(middle, between) / fundamental);
            log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{timbre} at {between} Hz: {rest:0} dB"));
            Assert.True(rest < -80.0, $"{between} Hz");
        }
    }

    // IEC 60601-1-8: the pulse of an alarm has at least four partials between 300 and 4000 Hz within 15 dB of each other.
    [Fact]
    public void The_rich_timbre_keeps_four_partials_of_440_hertz_within_15_dB_between_300_and_4000_hertz()
    {
        float[] left = Ear.Channel(Ear.Render([new Tone(0, 400, 440, 0, 0, Timbre.Rich)]), 0);
        float[] middle = left.AsSpan(SoundFormat.Frames(50), SoundFormat.Frames(300)).ToArray();
        double[] levels = [.. Enumerable.Range(1, 9).Select(k => Ear.Decibels(Ear.Amplitude(middle, 440.0 * k) + 1e-12))];
        Assert.True(levels.Count(l => l > levels.Max() - 15.0) >= 4);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(6.0)]
    [InlineData(15.0)]
    [InlineData(-6.0)]
    [InlineData(-15.0)]
    public void The_ears_differ_by_the_pan_and_together_keep_their_power(double pan)
    {
        float[] sound = Ear.Render([new Tone(0, 150, 660, 0, pan, Timbre.Plain)]);
        double left = Ear.Amplitude(Ear.Channel(sound, 0).AsSpan(0, SoundFormat.Frames(150)), 660);
        double right = Ear.Amplitude(Ear.Channel(sound, 1).AsSpan(0, SoundFormat.Frames(150)), 660);
        float[] centre = Ear.Channel(Ear.Render([new Tone(0, 150, 660, 0, 0, Timbre.Plain)]), 0);
        double one = Ear.Amplitude(centre.AsSpan(0, SoundFormat.Frames(150)), 660);
        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"pan {pan} dB: {Ear.Decibels(right / left):0.000} dB"));
        Assert.Equal(pan, Ear.Decibels(right / left), 0.05);
        Assert.Equal(2.0 * one * one, (left * left) + (right * right), 1e-4 * one * one);
    }

    [Fact]
    public void The_level_of_the_word_and_the_volume_are_what_they_say()
    {
        Assert.Equal(Level.WordDbfs, Both(0.0, 0.0), 0.05);
        Assert.Equal(Level.WordDbfs - 18.0, Both(-18.0, 0.0), 0.05);
        Assert.Equal(Level.WordDbfs - 6.0, Both(0.0, -6.0), 0.05);
        Assert.Equal(Both(0.0, Level.LoudestDb), Both(0.0, Level.LoudestDb + 40.0), 1e-6);

        static double Both(double levelDb, double volumeDb)
        {
            float[] left = Ear.Channel(Ear.Render([new Tone(0, 400, 660, levelDb, 0, Timbre.Plain)], volumeDb), 0);
            double one = Ear.Amplitude(left.AsSpan(SoundFormat.Frames(50), SoundFormat.Frames(300)), 660);
            return Ear.Decibels(one * Math.Sqrt(2.0));
        }
    }
}
