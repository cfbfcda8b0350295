using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>The move word: a few notes that say which way the DISH must go, seen from behind it, and how far.</summary>
/// <remarks>
/// Sizes are in half-power beamwidths B, so that one set of numbers serves every dish; amounts are in the units of the hand,
/// degrees of pan and tilt or degrees from behind.
/// <code>
/// part                what it says        values
/// first notes         reference           660 Hz
/// rhythm              left or right       left: short ones, then a long one; right: a long one, then short ones; neither: two equal ones
/// number of shorts    how far sideways    1 (0.1-0.3 B), 2 (to 0.6 B), 3 (more)
/// last notes, pitch   up or down          level 660; up 832 (0.1-0.3 B), 989 (more); down 524, 440 Hz
/// pan (says the same) left or right       0 dB neither, 6 dB (0.1-0.3 B), 15 dB (more)
/// once or twice       how urgent          twice, 0.25 s apart: lines are being lost
/// lengths                                 short 60, long 150, equal 100, gap 40 ms
/// rate (sensor only)  how far             0.7 + 2.9 (m - 0.22) words a second, 0.7 to 3.0, m in B
/// </code>
/// The pitches are +4, +7, -4, -7 equal-tempered semitones of the reference, since in a busy listener only steps of more than
/// three semitones carry meaning (J. 't Hart, JASA 69 (1981) 811). Side and size are rhythm and number, which a single earbud
/// and an untrained ear keep; pan only says the same again. Each word brings its own reference note.
/// </remarks>
public static class MoveWord
{
    /// <summary>The reference note, Hz.</summary>
    public const double ReferenceHz = 660.0;

    /// <summary>Gap between the notes, ms.</summary>
    public const double GapMs = 40.0;

    /// <summary>A short note, ms.</summary>
    public const double ShortMs = 60.0;

    /// <summary>A long note, ms.</summary>
    public const double LongMs = 150.0;

    /// <summary>Each of the two notes of a word without a side, ms.</summary>
    public const double EvenMs = 100.0;

    /// <summary>Silence between the two sayings of a pressing word, ms.</summary>
    public const double AgainMs = 250.0;

    /// <summary>A component below this is not said, B.</summary>
    public const double DeadB = 0.1;

    /// <summary>A component above this is more than a little, B.</summary>
    public const double LargeB = 0.3;

    /// <summary>A sideways component above this is far, B.</summary>
    public const double FarB = 0.6;

    /// <summary>A component below this share of the other is not said.</summary>
    public const double MinorShare = 0.4;

    /// <summary>Steps of the pitch for a little and for far, semitones.</summary>
    public static ImmutableArray<double> Semitones { get; } = [0.0, 4.0, 7.0];

    /// <summary>The word for a move.</summary>
    /// <param name="move">Where the dish has to go; right and up positive.</param>
    /// <param name="beam">Half-power beamwidth, positive.</param>
    /// <param name="mount">In which axes the hand moves: the sizes and the words are theirs.</param>
    /// <param name="pressing">Lines are being lost.</param>
    /// <returns>A cue, or null when both components are too small to be said.</returns>
    public static Cue? For(AimError move, Angle beam, Mount mount, bool pressing = false)
    {
        MoveMeaning meaning = Meaning(move, beam, mount, pressing);
        return meaning is { Side: 0, Height: 0 }
            ? null
            : new Cue(CueKind.MoveWord, 3, Say(move.By(mount), meaning), Tones(meaning)) { Meaning = meaning };
    }

    /// <summary>What the word for a move says.</summary>
    /// <inheritdoc cref="For"/>
    public static MoveMeaning Meaning(AimError move, Angle beam, Mount mount, bool pressing = false)
    {
        HandMove hand = move.By(mount);
        double up = hand.Lift / beam;

        // Whether a side is worth a word is a matter of the sky; how far the hand goes is a matter of its own axis.
        double right = move.Right / beam;
        int side = Size(right, up, FarB) == 0 ? 0 : Size(hand.Side / beam, 0.0, FarB);
        return new MoveMeaning(side, Size(up, right, double.PositiveInfinity), pressing);
    }

    /// <summary>The notes of a meaning.</summary>
    /// <param name="meaning">At least one of its components is said.</param>
    public static ImmutableArray<Tone> Tones(MoveMeaning meaning)
    {
        ImmutableArray<Tone>.Builder tones = ImmutableArray.CreateBuilder<Tone>(8);
        double end = Once(tones, meaning, 0.0);
        if (meaning.Pressing) { Once(tones, meaning, end + AgainMs); }

        return tones.ToImmutable();
    }

    /// <summary>Words a second while a sensor shows the error.</summary>
    /// <param name="sizeB">Size of the error, B.</param>
    public static double RatePerSecond(double sizeB) => Math.Clamp(0.7 + (2.9 * (sizeB - 0.22)), 0.7, 3.0);

    /// <returns>Where it ends, ms.</returns>
    private static double Once(ImmutableArray<Tone>.Builder tones, MoveMeaning meaning, double at)
    {
        int shorts = Math.Abs(meaning.Side);
        double pan = Math.Sign(meaning.Side) * (shorts switch { 0 => 0.0, 1 => 6.0, _ => 15.0 });
        double pitch = ReferenceHz * Math.Pow(2.0, Math.Sign(meaning.Height) * Semitones[Math.Abs(meaning.Height)] / 12.0);
        (int before, double beforeMs, int after, double afterMs) = meaning.Side switch
        {
            < 0 => (shorts, ShortMs, 1, LongMs),
            > 0 => (1, LongMs, shorts, ShortMs),
            _ => (1, EvenMs, 1, EvenMs),
        };
        for (int i = 0; i < before + after; i++)
        {
            (double length, double hertz) = i < before ? (beforeMs, ReferenceHz) : (afterMs, pitch);
            tones.Add(new Tone(at, length, hertz, 0.0, pan, Timbre.Plain));
            at += length + GapMs;
        }

        return at - GapMs;
    }

    /// <summary>0 not said, else 1, 2, 3 with the sign of the component.</summary>
    private static int Size(double own, double other, double farB)
    {
        double size = Math.Abs(own);
        if (size < DeadB || size < MinorShare * Math.Abs(other)) { return 0; }

        return Math.Sign(own) * (size > farB ? 3 : size > LargeB ? 2 : 1);
    }

    private static string Say(HandMove move, MoveMeaning meaning)
    {
        ImmutableArray<string>.Builder parts = ImmutableArray.CreateBuilder<string>(2);
        if (meaning.Side != 0) { parts.Add((meaning.Side > 0 ? "right " : "left ") + Whole(move.Side)); }

        if (meaning.Height != 0) { parts.Add((meaning.Height > 0 ? "up " : "down ") + Whole(move.Lift)); }

        return string.Join(", ", parts);
    }

    private static string Whole(Angle angle) =>
        Math.Max(1.0, Math.Round(Math.Abs(angle.Degrees), MidpointRounding.AwayFromZero)).ToString("0", CultureInfo.InvariantCulture);
}
