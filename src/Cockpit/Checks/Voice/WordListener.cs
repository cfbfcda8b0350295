using System.Collections.Immutable;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Checks.Voice;

/// <summary>A move word that was heard.</summary>
/// <param name="Start">Where it begins, seconds.</param>
/// <param name="Meaning">What it was taken for.</param>
public readonly record struct HeardWord(double Start, MoveMeaning Meaning);

/// <summary>Understands move words in a recording by the table that people learn: rhythm, number, pitch, once or twice.</summary>
public static class WordListener
{
    // Limits half-way between what the table gives; a note loses some of its length at half its amplitude.
    private const double LongestGap = 0.09;
    private const double LongestShort = (MoveWord.ShortMs + MoveWord.EvenMs) / 2000.0;
    private const double LongestEven = (MoveWord.EvenMs + MoveWord.LongMs) / 2000.0;
    private const double LongestLong = 0.2;
    private const double AgainWithin = 0.35;
    private const double SidedDb = 3.0;
    private const int MostShorts = 3;

    /// <summary>The words that two ears hear.</summary>
    public static ImmutableArray<HeardWord> Both(Eardrum ears)
    {
        ArgumentNullException.ThrowIfNull(ears);
        return Join(NoteFinder.Of(ears.Left, ears.Right));
    }

    /// <summary>The words that one ear hears, or one loudspeaker that is given one channel.</summary>
    public static ImmutableArray<HeardWord> One(IReadOnlyList<float> ear) => Join(NoteFinder.Of(ear, null));

    /// <summary>A word that comes again at once is one that presses.</summary>
    private static ImmutableArray<HeardWord> Join(ImmutableArray<HeardNote> notes)
    {
        ImmutableArray<HeardWord>.Builder words = ImmutableArray.CreateBuilder<HeardWord>();
        double ended = double.NegativeInfinity;
        foreach ((HeardNote first, HeardNote last, MoveMeaning meaning) in Singles(notes))
        {
            if (words.Count > 0 && first.Start - ended < AgainWithin && words[^1].Meaning == meaning)
            {
                words[^1] = words[^1] with { Meaning = meaning with { Pressing = true } };
            }
            else
            {
                words.Add(new HeardWord(first.Start, meaning));
            }

            ended = last.End;
        }

        return words.ToImmutable();
    }

    private static IEnumerable<(HeardNote First, HeardNote Last, MoveMeaning Meaning)> Singles(ImmutableArray<HeardNote> notes)
    {
        int from = 0;
        for (int i = 1; i <= notes.Length; i++)
        {
            if (i < notes.Length && notes[i].Start - notes[i - 1].End < LongestGap) { continue; }

            if (MeaningOf(notes.AsSpan()[from..i]) is { } meaning) { yield return (notes[from], notes[i - 1], meaning); }

            from = i;
        }
    }

    private static MoveMeaning? MeaningOf(ReadOnlySpan<HeardNote> notes)
    {
        if (notes.Length is < 2 or > MostShorts + 1) { return null; }

        Length first = LengthOf(notes[0]);
        Length last = LengthOf(notes[^1]);
        (int side, int reference) = (first, last) switch
        {
            (Length.Short, Length.Long) => (1 - notes.Length, notes.Length - 1),
            (Length.Long, Length.Short) => (notes.Length - 1, 1),
            (Length.Even, Length.Even) when notes.Length == 2 => (0, 1),
            _ => (0, 0),
        };
        if (reference == 0 || !Agree(notes[..reference], 0) || !Agree(notes[reference..], notes[^1].Height)) { return null; }

        return Contradicts(notes, side) ? null : new MoveMeaning(side, notes[^1].Height, Pressing: false);
    }

    private static bool Agree(ReadOnlySpan<HeardNote> notes, int height)
    {
        foreach (HeardNote note in notes)
        {
            if (note.Height != height || LengthOf(note) != LengthOf(notes[0])) { return false; }
        }

        return true;
    }

    /// <summary>Two ears that hear the other side than the rhythm says hear no word.</summary>
    private static bool Contradicts(ReadOnlySpan<HeardNote> notes, int side)
    {
        double balance = 0.0;
        foreach (HeardNote note in notes) { balance += note.Balance / notes.Length; }

        return Math.Abs(balance) > SidedDb && Math.Sign(balance) != Math.Sign(side);
    }

    private static Length LengthOf(HeardNote note) => note.Length switch
    {
        < LongestShort => Length.Short,
        < LongestEven => Length.Even,
        < LongestLong => Length.Long,
        _ => Length.Other,
    };

    private enum Length
    {
        Short,
        Even,
        Long,
        Other,
    }
}
