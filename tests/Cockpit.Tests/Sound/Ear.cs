using System.Numerics;
using Cockpit.Core.Sound;

namespace Cockpit.Tests.Sound;

/// <summary>What a measuring ear hears in a recording: notes with start, length and pitch. Knows nothing of how they were made.</summary>
internal static class Ear
{
    private const int Thinned = 8;

    /// <summary>A note.</summary>
    /// <param name="StartMs">First moment above half the loudest amplitude, ms.</param>
    /// <param name="LengthMs">Time above it, ms.</param>
    /// <param name="PitchHz">Strongest frequency between 400 and 1100 Hz.</param>
    public readonly record struct Note(double StartMs, double LengthMs, double PitchHz);

    /// <summary>Renders a cue through the mixer, interleaved stereo, with 50 ms of silence after it.</summary>
    public static float[] Render(IReadOnlyList<Tone> tones, double volumeDb = 0.0, int priority = 3)
    {
        Mixer mixer = new();
        mixer.SetVolume(volumeDb);
        if (volumeDb != 0.0) { mixer.Render(new float[SoundFormat.Frames(400) * 2]); }

        mixer.Start(priority, tones.ToArray());
        float[] sound = new float[SoundFormat.Frames(tones.Max(t => t.StartMs + t.LengthMs) + 50) * 2];
        mixer.Render(sound);
        return sound;
    }

    /// <summary>One channel of an interleaved recording.</summary>
    public static float[] Channel(ReadOnlySpan<float> interleaved, int channel)
    {
        float[] one = new float[interleaved.Length / 2];
        for (int i = 0; i < one.Length; i++) { one[i] = interleaved[(2 * i) + channel]; }

        return one;
    }

    /// <summary>Amplitude of one frequency in a stretch, Hann window (a sine of amplitude A gives A).</summary>
    public static double Amplitude(ReadOnlySpan<float> samples, double hertz)
    {
        float[] windowed = new float[samples.Length];
        double weight = 0.0;
        for (int i = 0; i < samples.Length; i++)
        {
            double window = 0.5 - (0.5 * Math.Cos(Math.Tau * (i + 0.5) / samples.Length));
            windowed[i] = (float)(window * samples[i]);
            weight += window;
        }

        return 2.0 * Correlate(windowed, hertz, SoundFormat.Rate) / weight;
    }

    /// <summary>The strongest frequency of a stretch, to 0.05 Hz.</summary>
    public static double Pitch(ReadOnlySpan<float> samples, double low = 400.0, double high = 1100.0)
    {
        // An eighth of the samples is enough: no partial of our sounds folds into the range looked at.
        float[] few = new float[samples.Length / Thinned];
        for (int i = 0; i < few.Length; i++)
        {
            few[i] = (float)(0.5 - (0.5 * Math.Cos(Math.Tau * (i + 0.5) / few.Length))) * samples[i * Thinned];
        }

        double best = Strongest(few, low, high, 8.0);
        best = Strongest(few, best - 8.0, best + 8.0, 0.5);
        return Strongest(few, best - 0.5, best + 0.5, 0.05);
    }

    /// <summary>Splits a recording of one channel into its notes.</summary>
    public static List<Note> Notes(ReadOnlySpan<float> samples)
    {
        double[] loud = Loudness(samples);
        double threshold = 0.5 * loud.Max();
        List<Note> notes = [];
        int? start = null;
        for (int i = 0; i <= loud.Length; i++)
        {
            bool above = i < loud.Length && loud[i] > threshold;
            if (above) { start ??= i; }
            else if (start is { } from)
            {
                notes.Add(new Note(Milliseconds(from), Milliseconds(i - from), Pitch(samples[from..i])));
                start = null;
            }
        }

        return notes;
    }

    public static double Milliseconds(int frames) => frames * 1000.0 / SoundFormat.Rate;

    public static double Decibels(double amplitudeRatio) => 20.0 * Math.Log10(amplitudeRatio);

    /// <summary>Amplitude of the strongest sample within 2.5 ms.</summary>
    private static double[] Loudness(ReadOnlySpan<float> samples)
    {
        int reach = SoundFormat.Frames(2.5);
        double[] loud = new double[samples.Length];
        for (int i = 0; i < samples.Length; i += 16)
        {
            double most = 0.0;
            for (int k = Math.Max(0, i - reach); k < Math.Min(samples.Length, i + reach); k++) { most = Math.Max(most, Math.Abs(samples[k])); }

            for (int k = i; k < Math.Min(samples.Length, i + 16); k++) { loud[k] = most; }
        }

        return loud;
    }

    private static double Strongest(ReadOnlySpan<float> samples, double low, double high, double step)
    {
        (double Hertz, double Amplitude) best = (low, 0.0);
        for (double hertz = low; hertz <= high; hertz += step)
        {
            double amplitude = Correlate(samples, hertz, SoundFormat.Rate / Thinned);
            if (amplitude > best.Amplitude) { best = (hertz, amplitude); }
        }

        return best.Hertz;
    }

    private static double Correlate(ReadOnlySpan<float> samples, double hertz, double rate)
    {
        Complex turn = Complex.FromPolarCoordinates(1.0, Math.Tau * hertz / rate);
        Complex phase = Complex.One;
        Complex sum = Complex.Zero;
        foreach (float sample in samples)
        {
            sum += sample * phase;
            phase *= turn;
        }

        return sum.Magnitude;
    }
}
