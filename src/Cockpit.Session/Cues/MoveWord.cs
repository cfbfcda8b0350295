using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>The move word: two notes that say which way the DISH must go, seen from behind it.</summary>
/// <remarks>
/// Sizes are in half-power beamwidths B, so that one set of numbers serves every dish.
/// <code>
/// part                what it says     values
/// note 1              reference        660 Hz
/// gap                                  40 ms
/// note 2, pitch       up or down       level 660; up 785 (0.1-0.3 B), 989 (more); down 555, 440 Hz
/// rhythm              left or right    left 60 + 150 ms; right 150 + 60 ms; neither 100 + 100 ms
/// pan (says the same) left or right    0 dB neither, 6 dB (0.1-0.3 B), 15 dB (more)
/// rate (sensor only)  how far          0.7 + 2.9 (m - 0.22) words a second, 0.7 to 3.0, m in B
/// </code>
/// The pitches are +3, +7, -3, -7 equal-tempered semitones of the reference, since in a busy listener only steps of
/// three semitones and more carry meaning (J. 't Hart, JASA 69 (1981) 811). Rhythm, not pan, is what names the side: it
/// survives a single earbud. Each word brings its own reference note.
/// </remarks>
public static class MoveWord
{
    /// <summary>The reference note, Hz.</summary>
    public const double ReferenceHz = 660.0;

    /// <summary>Gap between the notes, ms.</summary>
    public const double GapMs = 40.0;

    /// <summary>A component below this is not said, B.</summary>
    public const double DeadB = 0.1;

    /// <summary>A component above this is large, B.</summary>
    public const double LargeB = 0.3;

    /// <summary>A component below this share of the other is not said.</summary>
    public const double MinorShare = 0.4;

    private const double Smaller = 3.0;
    private const double Larger = 7.0;
    private const double OverheadDegrees = 70.0;   // above it the head turns three times as far as the sky, and more

    /// <summary>The word for a move.</summary>
    /// <param name="move">Where the dish has to go; right and up positive.</param>
    /// <param name="beam">Half-power beamwidth, positive.</param>
    /// <param name="overhead">Say the angle that the head has to pan, not the angle on the sky.</param>
    /// <returns>A cue of two tones, or null when both components are too small to be said.</returns>
    public static Cue? For(AimError move, Angle beam, bool overhead = false)
    {
        Angle up = Height(move, overhead);
        int side = Sign(move.Right / beam, up / beam);
        int height = Sign(up / beam, move.Right / beam);
        if (side == 0 && height == 0) { return null; }

        (double first, double second) = side < 0 ? (60.0, 150.0) : side > 0 ? (150.0, 60.0) : (100.0, 100.0);
        double pan = Math.Sign(side) * Math.Abs(side) switch { 0 => 0.0, 1 => 6.0, _ => 15.0 };
        double semitones = Math.Sign(height) * Math.Abs(height) switch { 0 => 0.0, 1 => Smaller, _ => Larger };
        double pitch = ReferenceHz * Math.Pow(2.0, semitones / 12.0);
        return new Cue(
            CueKind.MoveWord,
            3,
            Say(move, side, height, overhead),
            [
                new Tone(0.0, first, ReferenceHz, 0.0, pan, Timbre.Plain),
                new Tone(first + GapMs, second, pitch, 0.0, pan, Timbre.Plain),
            ]);
    }

    /// <summary>Whether the word speaks of the pan of the head, because dish or hold are above 70°.</summary>
    public static bool IsOverhead(Pointing dish, Hold target) =>
        Math.Max(dish.Elevation.Degrees, target.Elevation.Degrees) > OverheadDegrees;

    /// <summary>Words a second while a sensor shows the error.</summary>
    /// <param name="sizeB">Size of the error, B.</param>
    public static double RatePerSecond(double sizeB) => Math.Clamp(0.7 + (2.9 * (sizeB - 0.22)), 0.7, 3.0);

    /// <summary>-2 large negative, -1 small negative, 0 not said, 1, 2.</summary>
    private static int Sign(double own, double other)
    {
        double size = Math.Abs(own);
        if (size < DeadB || size < MinorShare * Math.Abs(other)) { return 0; }

        return Math.Sign(own) * (size > LargeB ? 2 : 1);
    }

    /// <summary>Who is told to pan turns the head's two axes, and its second axis is the tilt, not the way up on the sky.</summary>
    private static Angle Height(AimError move, bool overhead) => overhead ? move.Tilt : move.Up;

    private static string Say(AimError move, int side, int height, bool overhead)
    {
        ImmutableArray<string>.Builder parts = ImmutableArray.CreateBuilder<string>(2);
        if (side != 0)
        {
            string verb = overhead ? "pan " : string.Empty;
            parts.Add(verb + (side > 0 ? "right " : "left ") + Whole(overhead ? move.Pan : move.Right));
        }

        if (height != 0) { parts.Add((height > 0 ? "up " : "down ") + Whole(Height(move, overhead))); }

        return string.Join(", ", parts);
    }

    private static string Whole(Angle angle) =>
        Math.Max(1.0, Math.Round(Math.Abs(angle.Degrees), MidpointRounding.AwayFromZero)).ToString("0", CultureInfo.InvariantCulture);
}
