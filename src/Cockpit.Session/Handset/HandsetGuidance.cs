using System.Collections.Immutable;
using Cockpit.Core.Sound;

namespace Cockpit.Session.Handset;

/// <summary>What a phone at the hand shows and plays at one moment; pure data, angles in degrees.</summary>
/// <param name="Word">MOVE, HOLD, NEXT, SEARCH, WAIT, POINT, OVER or NONE.</param>
/// <param name="Right">How far to the right, seen from behind the dish; null when there is nothing to move.</param>
/// <param name="Up">How far upwards; null likewise.</param>
/// <param name="Arrow">Where the move points, clockwise from the top edge of the phone on its screen; null = no arrow.</param>
/// <param name="Flat">The phone lies along the dish with an edge: up and down can only be a symbol.</param>
/// <param name="Text">The move in the words and units of the screen.</param>
/// <param name="SecondsLeft">Until the next move; null when none is near.</param>
/// <param name="Ring">What is left of the hold, 1 to 0; null likewise.</param>
/// <param name="Signal">The level in a few letters.</param>
/// <param name="Lost">Picture lines are being lost now.</param>
/// <param name="Cue">The last cue: left, right, up, down, now, count, on, caution or alarm; empty before the first.</param>
/// <param name="CueCount">How many there were.</param>
/// <param name="Say">The last cue as spoken; empty when it is not.</param>
/// <param name="Note">One short sentence; empty when there is none.</param>
/// <param name="Buttons">Which buttons mean something now: peaked, moved, notmoved, here.</param>
/// <param name="Satellite">Name of the satellite.</param>
public sealed record HandsetGuidance(
    string Word,
    double? Right,
    double? Up,
    double? Arrow,
    bool Flat,
    string Text,
    double? SecondsLeft,
    double? Ring,
    string Signal,
    bool Lost,
    string Cue,
    long CueCount,
    string Say,
    string Note,
    ImmutableArray<string> Buttons,
    string Satellite)
{
    /// <summary>Longest note, characters.</summary>
    public const int LongestNote = 60;

    /// <summary>The last cue as the program's own voice sounds it; empty before the first.</summary>
    public ImmutableArray<Tone> Tones { get; init; } = [];

    /// <summary>Nothing to show.</summary>
    public static HandsetGuidance None { get; } = new("NONE", null, null, null, false, "", null, null, "", false, "", 0, "", "", [], "");

    /// <summary>Size of the move on the sky, degrees; null when there is nothing to move.</summary>
    public double? Total => Right is { } right && Up is { } up ? Math.Sqrt((right * right) + (up * up)) : null;
}
