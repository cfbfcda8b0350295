using System.Collections.Immutable;
using Cockpit.Core.Chance;
using Cockpit.Core.Sound;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Checks.Voice;

/// <summary>The score of two ears, of the left alone and of the right alone.</summary>
/// <param name="Both">Two ears.</param>
/// <param name="Left">The left alone, as with one earphone.</param>
/// <param name="Right">The right alone.</param>
public readonly record struct VoiceScores(VoiceScore Both, VoiceScore Left, VoiceScore Right)
{
    /// <summary>Both together.</summary>
    public static VoiceScores operator +(VoiceScores one, VoiceScores other) => new(one.Both + other.Both, one.Left + other.Left, one.Right + other.Right);
}

/// <summary>Renders what a session or a row of random words sounds like, and lets the listener write down what it understands.</summary>
/// <remarks>The listener is given the samples, nothing else: no times, no volume, no words.</remarks>
public static class VoiceTrial
{
    private const double LongestPause = 3.0;
    private static readonly bool[] Urgencies = [false, true];
    private static readonly Cue[] Others = [CueTable.Heartbeat, CueTable.LockGained, CueTable.Caution("lock lost"), CueTable.FeedBack("signal is back"), CueTable.RiseIn60, CueTable.PeakPassed, CueTable.ClockTick(1)];

    /// <summary>A session as it sounded.</summary>
    /// <param name="envelopes">Its events in their order.</param>
    /// <param name="noiseDb">White noise in each ear, dB re the word; null for none.</param>
    /// <param name="mistake">Takes a sentence for each word that two ears did not understand; null for none.</param>
    public static VoiceScores Of(IEnumerable<Envelope> envelopes, double? noiseDb, Action<string>? mistake = null)
    {
        Fold fold = new();
        return Listen(Plans(), noiseDb, seed: 1, mistake);

        IEnumerable<(TimeSpan At, CuePlan Plan)> Plans()
        {
            foreach (Envelope envelope in envelopes)
            {
                Snapshot snapshot = fold.Step(envelope);
                yield return (envelope.Elapsed / (snapshot.Settings?.Speed ?? 1.0), snapshot.Cues);
            }
        }
    }

    /// <summary>Plans at their times as they sound.</summary>
    /// <param name="plans">Time since the start, never going back, and what sounds from then on.</param>
    /// <param name="noiseDb">White noise in each ear, dB re the word; null for none.</param>
    public static VoiceScores Of(IEnumerable<(TimeSpan At, CuePlan Plan)> plans, double? noiseDb) => Listen(plans, noiseDb, seed: 1);

    /// <summary>Every word equally often in a random order, other sounds between them.</summary>
    /// <param name="seed">Seed of order, pauses and noise.</param>
    /// <param name="rounds">How often each word comes.</param>
    /// <param name="noiseDb">White noise in each ear, dB re the word; null for none.</param>
    public static VoiceScores Random(ulong seed, int rounds, double? noiseDb)
    {
        Xoshiro256 chance = new(seed);
        return Listen(Plans(), noiseDb, seed);

        IEnumerable<(TimeSpan At, CuePlan Plan)> Plans()
        {
            double at = 1.0;
            foreach (MoveMeaning meaning in Enumerable.Range(0, rounds).SelectMany(_ => All()).OrderBy(_ => chance.NextBits()))
            {
                Cue word = new(CueKind.MoveWord, 3, "", MoveWord.Tones(meaning)) { Meaning = meaning };
                yield return (TimeSpan.FromSeconds(at), CuePlan.Silence with { Started = [word] });
                at += 1.5 + (LongestPause * chance.NextUnit());
                yield return (TimeSpan.FromSeconds(at), CuePlan.Silence with { Started = [Others[chance.NextBelow(Others.Length)]] });
                at += 0.6 + chance.NextUnit();
            }

            yield return (TimeSpan.FromSeconds(at + 1.0), CuePlan.Silence);
        }
    }

    private static IEnumerable<MoveMeaning> All() =>
        from side in Enumerable.Range(-3, 7)
        from height in Enumerable.Range(-2, 5)
        from pressing in Urgencies
        where (side, height) != (0, 0)
        select new MoveMeaning(side, height, pressing);

    private static VoiceScores Listen(IEnumerable<(TimeSpan At, CuePlan Plan)> plans, double? noiseDb, ulong seed, Action<string>? mistake = null)
    {
        ImmutableArray<(double At, MoveMeaning Meaning)>.Builder said = ImmutableArray.CreateBuilder<(double, MoveMeaning)>();
        Eardrum ears = new();
        WhiteNoise? noise = noiseDb is { } db ? new WhiteNoise(seed, db) : null;
        SoundTrack.Render(Noted(), block => ears.Hear(noise is null ? block : noise.Over(block)));
        ImmutableArray<(double At, MoveMeaning Meaning)> words = said.ToImmutable();
        return new VoiceScores(
            VoiceScore.Of(words, WordListener.Both(ears), mistake),
            VoiceScore.Of(words, WordListener.One(ears.Left)),
            VoiceScore.Of(words, WordListener.One(ears.Right)));

        IEnumerable<(TimeSpan At, CuePlan Plan)> Noted()
        {
            foreach ((TimeSpan at, CuePlan plan) in plans)
            {
                foreach (Cue cue in plan.Started)
                {
                    if (cue.Meaning is { } meaning) { said.Add((at.TotalSeconds, meaning)); }
                }

                yield return (at, plan);
            }
        }
    }

    /// <summary>Noise over samples, each ear its own.</summary>
    private sealed class WhiteNoise(ulong seed, double noiseDb)
    {
        private readonly Xoshiro256 _chance = new(seed, 3);
        private readonly double _rms = short.MaxValue * Level.Amplitude(Level.WordDbfs + noiseDb) * Math.Sqrt(0.5);
        private short[] _block = [];

        public ReadOnlySpan<short> Over(ReadOnlySpan<short> samples)
        {
            if (_block.Length < samples.Length) { _block = new short[samples.Length]; }

            for (int i = 0; i < samples.Length; i++)
            {
                _block[i] = (short)Math.Clamp(samples[i] + (_rms * _chance.NextNormal()), short.MinValue, short.MaxValue);
            }

            return _block.AsSpan(0, samples.Length);
        }
    }
}
