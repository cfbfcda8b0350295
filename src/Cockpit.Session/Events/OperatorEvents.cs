using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>The operator pressed a key with a meaning for the pass.</summary>
/// <param name="Key">Which.</param>
public sealed record OperatorPressed(OperatorKey Key) : SessionEvent;

/// <summary>What the operator can say with one key.</summary>
public enum OperatorKey
{
    /// <summary>The signal is at its best: the dish points at the satellite now.</summary>
    Peaked = 0,

    /// <summary>The nudge that was called is done.</summary>
    Moved = 1,

    /// <summary>The last nudge was not done; the dish is where it was.</summary>
    NotMoved = 2,

    /// <summary>Sound of guidance off or on (alarms stay on the screen).</summary>
    Mute = 3,

    /// <summary>Alarm seen.</summary>
    Acknowledge = 4,

    /// <summary>Say the current word again.</summary>
    Again = 5,

    /// <summary>Play the test sound.</summary>
    TestSound = 6,

    /// <summary>Start or end the search for the peak.</summary>
    Search = 7,

    /// <summary>Louder by 3 dB.</summary>
    Louder = 8,

    /// <summary>Softer by 3 dB.</summary>
    Softer = 9,

    /// <summary>Correct the time of the predictions by what the clock was found to be wrong.</summary>
    CorrectClock = 10,

    /// <summary>The one key: moved, best or seen, whatever the moment asks for.</summary>
    OneKey = 11,

    /// <summary>The test sound came left, right and from both; one of the meanings of the one key.</summary>
    Heard = 12,

    /// <summary>The test sound did not come as it has to; stands for "not moved" while the test is asked about.</summary>
    NotHeard = 13,

    /// <summary>Before the pass: the dish points at what is asked for, the sun, the moon or a landmark.</summary>
    OnDirection = 14,

    /// <summary>Before the pass: ask for another of these.</summary>
    AnotherDirection = 15,
}

/// <summary>In a rehearsal only: the operator turned the head by key, on its two scales.</summary>
/// <param name="Pan">Clockwise seen from above.</param>
/// <param name="Tilt">Upwards.</param>
public sealed record HeadTurned(Angle Pan, Angle Tilt) : SessionEvent;

/// <summary>The operator pointed the dish at something whose direction is known, and said so: how far a sensor on it is off can be told from that.</summary>
/// <param name="Azimuth">True azimuth of that thing, in [0°, 360°).</param>
/// <param name="Elevation">Its elevation; null where only its bearing is known.</param>
/// <param name="Spread">How far the dish may point beside it on each axis, one standard deviation.</param>
/// <param name="What">What it was, for people: "the sun".</param>
public sealed record DirectionKnown(Angle Azimuth, Angle? Elevation, Angle Spread, string What) : SessionEvent;

/// <summary>In a rehearsal only: where the simulated dish really points and how well the signal really is.</summary>
/// <param name="Azimuth">True azimuth of the dish.</param>
/// <param name="Elevation">Elevation of the dish.</param>
/// <param name="Margin">Margin over the threshold of the picture.</param>
public sealed record TruthRecorded(Angle Azimuth, Angle Elevation, Decibels Margin) : SessionEvent;
