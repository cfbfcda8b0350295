using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>Takes the next samples of a recording: left, right, left, ...</summary>
/// <param name="pcm">The samples; only good during the call.</param>
public delegate void SamplesTaker(ReadOnlySpan<short> pcm);

/// <summary>What a session sounded like, as fast as the machine can.</summary>
public static class SoundTrack
{
    private static readonly int BlockFrames = SoundFormat.Frames(5.0);

    /// <summary>Renders plans at their times into a WAV file; silence goes on to the last of them.</summary>
    /// <param name="path">The file; what it held is replaced.</param>
    /// <param name="plans">Time since the start, never going back, and what sounds from then on.</param>
    /// <param name="speech">Spoken words; null where tones are wanted.</param>
    /// <exception cref="SoundDeviceException">The file cannot be written, or is full.</exception>
    public static void Write(string path, IEnumerable<(TimeSpan At, CuePlan Plan)> plans, SpeechClips? speech = null)
    {
        using WavSink sink = WavSink.Open(path);
        Render(plans, sink.Write, speech);
    }

    /// <summary>Renders plans at their times; silence goes on to the last of them.</summary>
    /// <param name="plans">Time since the start, never going back, and what sounds from then on.</param>
    /// <param name="take">Takes the samples, 48 kHz, stereo, block by block.</param>
    /// <param name="speech">Spoken words; null where tones are wanted.</param>
    public static void Render(IEnumerable<(TimeSpan At, CuePlan Plan)> plans, SamplesTaker take, SpeechClips? speech = null)
    {
        ArgumentNullException.ThrowIfNull(plans);
        ArgumentNullException.ThrowIfNull(take);
        Mixer mixer = new();
        float[] block = new float[BlockFrames * SoundFormat.Channels];
        short[] pcm = new short[block.Length];
        foreach ((TimeSpan at, CuePlan plan) in plans)
        {
            long until = (long)(at.TotalSeconds * SoundFormat.Rate);
            while (mixer.Frame < until)
            {
                int frames = (int)Math.Min(BlockFrames, until - mixer.Frame);
                Span<float> part = block.AsSpan(0, frames * SoundFormat.Channels);
                mixer.Render(part);
                Pcm16.Convert(part, pcm);
                take(pcm.AsSpan(0, part.Length));
            }

            mixer.SetPeak(plan.Peak?.FrequencyHz, plan.Peak?.PulsesPerSecond ?? 0.0);
            mixer.SetVolume(plan.VolumeDb);
            foreach (Cue cue in plan.Started) { speech.Start(mixer, cue); }
        }
    }
}
