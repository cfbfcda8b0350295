namespace Cockpit.Tests.Sound;

/// <summary>Understands the move word from one channel of a recording: rhythm names the side, pitch names up or down.</summary>
internal static class WordDecoder
{
    /// <summary>-1 left or down, 0 not said, 1 right or up.</summary>
    public readonly record struct Word(int Side, int Height, int HeightSize);

    public static Word Decode(ReadOnlySpan<float> channel)
    {
        List<Ear.Note> notes = Ear.Notes(channel);
        Assert.Equal(2, notes.Count);
        double rhythm = notes[0].LengthMs / notes[1].LengthMs;
        double semitones = 12.0 * Math.Log2(notes[1].PitchHz / notes[0].PitchHz);
        int side = rhythm > 1.5 ? 1 : rhythm < 1.0 / 1.5 ? -1 : 0;
        int size = Math.Abs(semitones) > 5.0 ? 2 : Math.Abs(semitones) > 1.5 ? 1 : 0;
        return new Word(side, Math.Sign(semitones) * Math.Min(size, 1), size);
    }
}
