using System.Buffers.Binary;
using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>Makes of what a speech program wrote what the mixer takes: 48 kHz, one channel, no silence at its ends, as loud as a word in tones.</summary>
internal static class SpeechShaper
{
    private const int Reach = 12;                 // samples on each side of the windowed sinc; images stay 60 dB down
    private const double Silence = 0.02;          // of the loudest sample
    private const double EdgeMs = 5.0;
    private static readonly double LoudnessRms = Level.Amplitude(Level.WordDbfs - 3.0);   // the word's fundamental, as a mean square

    /// <summary>Reads a WAV file of 16-bit samples.</summary>
    /// <param name="wav">The file.</param>
    /// <returns>Null when it is none or holds no sound.</returns>
    public static float[]? Read(ReadOnlySpan<byte> wav)
    {
        if (wav.Length < 12 || !wav[..4].SequenceEqual("RIFF"u8) || !wav[8..12].SequenceEqual("WAVE"u8)) { return null; }

        int rate = 0;
        int channels = 0;
        for (int at = 12; at + 8 <= wav.Length;)
        {
            ReadOnlySpan<byte> body = wav[(at + 8)..];

            // A program that writes to a pipe leaves the size open: then the samples go on to the end.
            int size = (int)Math.Min(BinaryPrimitives.ReadUInt32LittleEndian(wav[(at + 4)..]), (uint)body.Length);
            if (wav.Slice(at, 4).SequenceEqual("fmt "u8) && size >= 16)
            {
                bool plain = BinaryPrimitives.ReadUInt16LittleEndian(body[14..]) == 16;
                channels = plain ? BinaryPrimitives.ReadUInt16LittleEndian(body[2..]) : 0;
                rate = BinaryPrimitives.ReadInt32LittleEndian(body[4..]);
            }
            else if (wav.Slice(at, 4).SequenceEqual("data"u8))
            {
                return channels is 1 or 2 && rate is >= 8000 and <= 96000 ? Shape(Samples(body[..size], channels), rate) : null;
            }

            at += 8 + size + (size & 1);
        }

        return null;
    }

    private static float[] Samples(ReadOnlySpan<byte> data, int channels)
    {
        float[] samples = new float[data.Length / (2 * channels)];
        for (int i = 0; i < samples.Length; i++) { samples[i] = BinaryPrimitives.ReadInt16LittleEndian(data[(2 * i * channels)..]) / 32768f; }

        return samples;
    }

    private static float[]? Shape(float[] samples, int rate)
    {
        float most = samples.Length == 0 ? 0f : samples.Max(Math.Abs);
        if (most <= 0f) { return null; }

        int first = Array.FindIndex(samples, s => Math.Abs(s) > Silence * most);
        int last = Array.FindLastIndex(samples, s => Math.Abs(s) > Silence * most);
        float[] shaped = Resample(samples.AsSpan(first, last + 1 - first), rate);
        double rms = Math.Sqrt(shaped.Sum(s => (double)s * s) / shaped.Length);
        float gain = (float)(LoudnessRms / rms);
        int edge = Math.Min(SoundFormat.Frames(EdgeMs), shaped.Length / 2);
        for (int i = 0; i < shaped.Length; i++)
        {
            shaped[i] *= gain * Ramp.Rise((i + 1.0) / edge) * Ramp.Rise((shaped.Length - i) / (double)edge);
        }

        return shaped;
    }

    /// <summary>Windowed sinc (Hann), cut off at the lower of the two rates.</summary>
    private static float[] Resample(ReadOnlySpan<float> samples, int rate)
    {
        double step = rate / (double)SoundFormat.Rate;
        double cut = Math.Min(1.0, 1.0 / step);
        float[] made = new float[Math.Max(1, (int)(samples.Length / step))];
        for (int i = 0; i < made.Length; i++)
        {
            double at = i * step;
            double sum = 0.0;
            for (int k = Math.Max(0, (int)(at - (Reach / cut))); k <= Math.Min(samples.Length - 1, (int)(at + (Reach / cut))); k++)
            {
                double x = (k - at) * cut;
                double sinc = x == 0.0 ? 1.0 : Math.Sin(Math.PI * x) / (Math.PI * x);
                sum += samples[k] * cut * sinc * (0.5 + (0.5 * Math.Cos(Math.PI * x / (Reach + 1))));
            }

            made[i] = (float)sum;
        }

        return made;
    }
}
