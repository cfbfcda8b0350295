using Cockpit.Session.Events;

namespace Cockpit.Screen.Keys;

/// <summary>What a key asks for.</summary>
public abstract record KeyAction;

/// <summary>The operator said something about the pass; it becomes an event.</summary>
/// <param name="Key">What was said.</param>
public sealed record OperatorAction(OperatorKey Key) : KeyAction;

/// <summary>Fly another of the passes that are offered.</summary>
/// <param name="Index">Which, from 0.</param>
public sealed record ChooseAction(int Index) : KeyAction;

/// <summary>Show the code by which a phone is paired, or take it away again.</summary>
public sealed record PairAction : KeyAction;

/// <summary>Turn the head of a rehearsal; it becomes an event.</summary>
/// <param name="StepDegrees">How far one press turns it.</param>
/// <param name="Pan">Steps clockwise.</param>
/// <param name="Tilt">Steps upwards.</param>
public sealed record TurnAction(double StepDegrees, int Pan = 0, int Tilt = 0) : KeyAction
{
    /// <summary>The turn that one of its keys means.</summary>
    public TurnAction By(string key) => key switch
    {
        "Left" or "Shift-Left" or "J" => this with { Pan = -1 },
        "Right" or "Shift-Right" or "L" => this with { Pan = 1 },
        "Up" or "Shift-Up" or "I" => this with { Tilt = 1 },
        _ => this with { Tilt = -1 },
    };
}

/// <summary>Leave the program. Raised once the operator has confirmed it; the screen closes by itself afterwards.</summary>
/// <param name="AtOnce">Asked for with Ctrl-C: no second press is needed.</param>
public sealed record QuitAction(bool AtOnce) : KeyAction;

/// <summary>A control of the replay; acts on the player and is no event.</summary>
/// <param name="Verb">What to do.</param>
/// <param name="By">How far a jump goes, negative = back; zero for the other verbs.</param>
public sealed record PlayerAction(PlayerVerb Verb, TimeSpan By) : KeyAction;

/// <summary>Something that only the screen itself answers.</summary>
/// <param name="Verb">What to do.</param>
public sealed record ViewAction(ViewVerb Verb) : KeyAction;

/// <summary>What a player can do.</summary>
public enum PlayerVerb
{
    /// <summary>Stop, or go on.</summary>
    Pause = 0,

    /// <summary>The next faster rate.</summary>
    Faster = 1,

    /// <summary>The next slower rate.</summary>
    Slower = 2,

    /// <summary>Move by a span.</summary>
    Jump = 3,

    /// <summary>Move to the first event.</summary>
    ToStart = 4,

    /// <summary>Move to the last event.</summary>
    ToEnd = 5,

    /// <summary>Move to the next mark, nudge, gap or alarm.</summary>
    Next = 6,

    /// <summary>Move to the one before.</summary>
    Previous = 7,

    /// <summary>Choose which of them the moves go to.</summary>
    Which = 8,
}

/// <summary>What the screen does for itself.</summary>
public enum ViewVerb
{
    /// <summary>The next theme.</summary>
    NextTheme = 0,

    /// <summary>Help on or off.</summary>
    Help = 1,

    /// <summary>The picture in place of the sky, or the sky again.</summary>
    Picture = 2,
}
