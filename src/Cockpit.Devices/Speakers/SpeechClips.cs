using System.Collections.Concurrent;
using System.Collections.Immutable;
using Cockpit.Core.Sound;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>The clips of every word that the voice can speak, ready to be mixed.</summary>
/// <remarks>Safe for several threads. A phrase is put together once and kept.</remarks>
public sealed class SpeechClips
{
    private static readonly int GapFrames = SoundFormat.Frames(30.0);
    private readonly ImmutableDictionary<string, float[]> _words;
    private readonly ConcurrentDictionary<string, ReadOnlyMemory<float>> _phrases = new(StringComparer.Ordinal);

    internal SpeechClips(ImmutableDictionary<string, float[]> words) => _words = words;

    /// <summary>What a cue is in words; empty when it is not spoken.</summary>
    /// <param name="cue">The cue.</param>
    /// <returns>48 kHz, one channel.</returns>
    public ReadOnlyMemory<float> Of(Cue cue)
    {
        ImmutableArray<string> clips = SpokenCue.Clips(cue);
        return clips.IsEmpty ? default : _phrases.GetOrAdd(string.Join(' ', clips), _ => Joined(clips));
    }

    private float[] Joined(ImmutableArray<string> clips)
    {
        List<float> phrase = [];
        foreach (string clip in clips)
        {
            if (!_words.TryGetValue(clip, out float[]? samples)) { continue; }

            phrase.AddRange(samples);
            phrase.AddRange(new float[GapFrames]);
        }

        return [.. phrase];
    }
}

/// <summary>Starts a cue in tones, in words, or in both.</summary>
internal static class SpeechStart
{
    /// <summary>Starts a cue on a mixer; without clips it is the tones alone.</summary>
    public static void Start(this SpeechClips? speech, Mixer mixer, Cue cue)
    {
        ReadOnlyMemory<float> spoken = speech?.Of(cue) ?? default;
        bool wordsAlone = !spoken.IsEmpty && SpokenCue.ReplacesNotes(cue.Kind);
        mixer.Start(cue.Priority, wordsAlone ? default : cue.Tones.AsSpan(), spoken);
    }
}
