using Cockpit.Checks.Voice;
using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Tests.Sound;

/// <summary>Understands the one move word in a stretch of one channel.</summary>
internal static class WordDecoder
{
    public static MoveMeaning Decode(ReadOnlySpan<float> channel)
    {
        short[] pcm = new short[2 * channel.Length];
        for (int i = 0; i < channel.Length; i++) { pcm[2 * i] = (short)Math.Round(channel[i] * short.MaxValue); }

        Eardrum ears = new();
        ears.Hear(new short[SoundFormat.Rate]);
        ears.Hear(pcm);
        ears.Hear(new short[SoundFormat.Rate]);
        return Assert.Single(WordListener.One(ears.Left)).Meaning;
    }
}
