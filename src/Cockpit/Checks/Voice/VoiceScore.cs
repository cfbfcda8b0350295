using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.State;

namespace Cockpit.Checks.Voice;

/// <summary>How well a listener understood.</summary>
/// <param name="Words">Words that were said.</param>
/// <param name="Right">Words of which side, height, both sizes and urgency were understood.</param>
/// <param name="Sides">Words whose way (left, right, up, down) was understood, whatever the sizes.</param>
/// <param name="Missed">Words that were not heard as words.</param>
/// <param name="Imagined">Words that were heard and never said.</param>
public readonly record struct VoiceScore(int Words, int Right, int Sides, int Missed, int Imagined)
{
    private const double Together = 0.2;   // seconds between the start that is known and the start that is heard

    /// <summary>Share of the words that were wholly understood; 1 without words.</summary>
    public double Share => Words == 0 ? 1.0 : (double)Right / Words;

    /// <summary>Compares what was said with what was heard.</summary>
    /// <param name="said">Start of each word, seconds, in order, and what it says.</param>
    /// <param name="heard">What was heard, in order.</param>
    /// <param name="mistake">Takes a sentence for each word that was not understood; null for none.</param>
    public static VoiceScore Of(ImmutableArray<(double At, MoveMeaning Meaning)> said, ImmutableArray<HeardWord> heard, Action<string>? mistake = null)
    {
        VoiceScore score = new(said.Length, 0, 0, 0, heard.Length);
        int next = 0;
        foreach ((double at, MoveMeaning meaning) in said)
        {
            while (next < heard.Length && heard[next].Start < at - Together) { next++; }

            if (next >= heard.Length || heard[next].Start > at + Together)
            {
                score = score with { Missed = score.Missed + 1 };
                mistake?.Invoke(string.Create(CultureInfo.InvariantCulture, $"{at:0.0} s: {meaning} was not heard"));
                continue;
            }

            MoveMeaning understood = heard[next++].Meaning;
            if (understood != meaning) { mistake?.Invoke(string.Create(CultureInfo.InvariantCulture, $"{at:0.0} s: {meaning} was taken for {understood}")); }

            score = score with
            {
                Imagined = score.Imagined - 1,
                Right = score.Right + (understood == meaning ? 1 : 0),
                Sides = score.Sides + (Math.Sign(understood.Side) == Math.Sign(meaning.Side) && Math.Sign(understood.Height) == Math.Sign(meaning.Height) ? 1 : 0),
            };
        }

        return score;
    }

    /// <summary>Both together.</summary>
    public static VoiceScore operator +(VoiceScore one, VoiceScore other) => new(
        one.Words + other.Words, one.Right + other.Right, one.Sides + other.Sides, one.Missed + other.Missed, one.Imagined + other.Imagined);
}
