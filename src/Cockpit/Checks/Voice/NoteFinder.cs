using System.Collections.Immutable;
using Cockpit.Session.Cues;

namespace Cockpit.Checks.Voice;

/// <summary>A note that was heard.</summary>
/// <param name="Start">Where it begins, seconds.</param>
/// <param name="End">Where it ends, seconds.</param>
/// <param name="Height">-2 to 2: which of the five pitches of a word it is nearest to; 0 = the reference.</param>
/// <param name="Balance">Right against left ear, dB; 0 with one ear.</param>
internal readonly record struct HeardNote(double Start, double End, int Height, double Balance)
{
    /// <summary>Its length, seconds.</summary>
    public double Length => End - Start;
}

/// <summary>Cuts a recording into notes by how strong the five pitches of a word are, 200 times a second. Knows nothing else of the voice.</summary>
internal static class NoteFinder
{
    private const int Hop = Eardrum.Rate / 200;
    private const int Window = 144;               // 24 ms: two neighbouring pitches are 84 Hz apart, the window resolves 83
    private const int Pitches = 5;
    private const int Reach = 30;                 // frames, 0.15 s: what is loud is judged beside its neighbours
    private const double OverNoise = 2.6;         // the strongest of five pitches in noise reaches 2.6 times its median once in a pass
    private const double ShortestNote = 0.02;     // what is shorter is a spike of noise or the seam of two notes
    private const double HalfAmplitude = 0.5;
    private const double Silence = 2e-4;
    private static readonly float[][] Cosines = Tables(Math.Cos);
    private static readonly float[][] Sines = Tables(Math.Sin);

    /// <summary>The notes of a recording.</summary>
    /// <param name="left">The left ear; or the only one.</param>
    /// <param name="right">The right ear; null with one ear.</param>
    public static ImmutableArray<HeardNote> Of(IReadOnlyList<float> left, IReadOnlyList<float>? right)
    {
        float[] one = [.. left];
        float[]? other = right is null ? null : [.. right];
        int frames = Math.Max(0, (one.Length - Window) / Hop);
        Frame[] heard = new Frame[frames];
        for (int i = 0; i < frames; i++) { heard[i] = FrameOf(one.AsSpan(i * Hop, Window), other is null ? default : other.AsSpan(i * Hop, Window)); }

        return Cut(heard);
    }

    private static ImmutableArray<HeardNote> Cut(Frame[] frames)
    {
        double floor = Math.Max(Silence, OverNoise * Median(frames));
        ImmutableArray<HeardNote>.Builder notes = ImmutableArray.CreateBuilder<HeardNote>();
        int start = -1;
        for (int i = 0; i <= frames.Length; i++)
        {
            bool sounds = i < frames.Length && frames[i].Strength > floor && frames[i].Strength > HalfAmplitude * Loudest(frames, i);
            if (start >= 0 && (!sounds || frames[i].Height != frames[start].Height))
            {
                HeardNote note = NoteOf(frames, start, i);
                if (note.Length > ShortestNote) { notes.Add(note); }

                start = -1;
            }

            if (sounds && start < 0) { start = i; }
        }

        return notes.ToImmutable();
    }

    private static HeardNote NoteOf(Frame[] frames, int from, int to)
    {
        double balance = 0.0;
        for (int i = from; i < to; i++) { balance += frames[i].Balance / (to - from); }

        double centre = Window / 2.0 / Eardrum.Rate;
        return new HeardNote((from * Hop / (double)Eardrum.Rate) + centre, (to * Hop / (double)Eardrum.Rate) + centre, frames[from].Height, balance);
    }

    private static double Loudest(Frame[] frames, int at)
    {
        double most = 0.0;
        for (int i = Math.Max(0, at - Reach); i < Math.Min(frames.Length, at + Reach); i++) { most = Math.Max(most, frames[i].Strength); }

        return most;
    }

    private static double Median(Frame[] frames)
    {
        if (frames.Length == 0) { return 0.0; }

        double[] sorted = [.. frames.Select(frame => frame.Strength).Order()];
        return sorted[sorted.Length / 2];
    }

    private static Frame FrameOf(ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        Frame best = default;
        for (int pitch = 0; pitch < Pitches; pitch++)
        {
            double one = Amplitude(left, pitch);
            double other = right.IsEmpty ? 0.0 : Amplitude(right, pitch);
            double strength = Math.Sqrt((one * one) + (other * other));
            if (strength > best.Strength)
            {
                best = new Frame(strength, pitch - 2, right.IsEmpty ? 0.0 : 20.0 * Math.Log10((other + Silence) / (one + Silence)));
            }
        }

        return best;
    }

    private static double Amplitude(ReadOnlySpan<float> samples, int pitch)
    {
        double cosine = 0.0;
        double sine = 0.0;
        float[] cosines = Cosines[pitch];
        float[] sines = Sines[pitch];
        for (int i = 0; i < samples.Length; i++)
        {
            cosine += samples[i] * cosines[i];
            sine += samples[i] * sines[i];
        }

        return Math.Sqrt((cosine * cosine) + (sine * sine));
    }

    private static float[][] Tables(Func<double, double> wave) => [.. Enumerable.Range(-2, Pitches).Select(height =>
    {
        double hertz = MoveWord.ReferenceHz * Math.Pow(2.0, Math.Sign(height) * MoveWord.Semitones[Math.Abs(height)] / 12.0);
        float[] table = new float[Window];
        for (int i = 0; i < Window; i++)
        {
            double hann = 0.5 - (0.5 * Math.Cos(Math.Tau * (i + 0.5) / Window));
            table[i] = (float)(4.0 / Window * hann * wave(Math.Tau * hertz * i / Eardrum.Rate));
        }

        return table;
    })];

    private readonly record struct Frame(double Strength, int Height, double Balance);
}
