namespace Cockpit.Screen.Themes;

/// <summary>What a piece of the screen means; a theme gives it style, the panel gives it a glyph of its own.</summary>
public enum Role
{
    /// <summary>Plain text.</summary>
    Plain = 0,

    /// <summary>Names, units, rules: there, but not in the way.</summary>
    Dim = 1,

    /// <summary>A number that matters.</summary>
    Strong = 2,

    /// <summary>Old, missing or not trusted.</summary>
    Stale = 3,

    /// <summary>Band of HOLD.</summary>
    Hold = 4,

    /// <summary>Band of NEXT.</summary>
    Next = 5,

    /// <summary>Band of MOVE.</summary>
    Move = 6,

    /// <summary>Band of SEARCH.</summary>
    Search = 7,

    /// <summary>Band of PEAK.</summary>
    Peak = 8,

    /// <summary>Band of POINT.</summary>
    Point = 9,

    /// <summary>Band of DONE.</summary>
    Done = 10,

    /// <summary>Rings, axes and frames of a plot.</summary>
    Grid = 11,

    /// <summary>Path of the satellite still to come.</summary>
    Track = 12,

    /// <summary>Path of the satellite already flown.</summary>
    TrackPast = 13,

    /// <summary>The satellite.</summary>
    Satellite = 14,

    /// <summary>The dish.</summary>
    Dish = 15,

    /// <summary>The next aim point.</summary>
    AimPoint = 16,

    /// <summary>Measured level.</summary>
    Measured = 17,

    /// <summary>Expected level.</summary>
    Expected = 18,

    /// <summary>All is well with a part.</summary>
    Good = 19,

    /// <summary>Good to know.</summary>
    Advisory = 20,

    /// <summary>Needs attention soon.</summary>
    Caution = 21,

    /// <summary>Needs action now.</summary>
    Warning = 22,

    /// <summary>The name of a key.</summary>
    Key = 23,

    /// <summary>The code for the phone: black on white in every theme, because a camera reads it.</summary>
    Code = 24,
}
