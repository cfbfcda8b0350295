using System.Collections.Immutable;
using Cockpit.Core.Sound;

namespace Cockpit.Session.State;

/// <summary>What should sound at one moment; pure data.</summary>
/// <param name="Started">Cues that start with this snapshot, in order; usually none or one.</param>
/// <param name="Peak">The peak tone that should sound now; null when it should not.</param>
/// <param name="VolumeDb">Volume re the default, dB.</param>
/// <param name="WordsLeftOut">Nudges so far that were called without their word, because something else had the floor; words are left out whole.</param>
public sealed record CuePlan(ImmutableArray<Cue> Started, PeakTone? Peak, double VolumeDb, int WordsLeftOut = 0)
{
    /// <summary>Silence.</summary>
    public static CuePlan Silence { get; } = new([], null, 0.0);
}

/// <summary>One cue: a short row of tones with a meaning.</summary>
/// <param name="Kind">What it means.</param>
/// <param name="Priority">1 warning, 2 caution, 3 guidance, 4 advisory.</param>
/// <param name="Text">The same in words, for screen and log.</param>
/// <param name="Tones">The tones.</param>
public sealed record Cue(CueKind Kind, int Priority, string Text, ImmutableArray<Tone> Tones)
{
    /// <summary>What a move word says; null for every other cue.</summary>
    public MoveMeaning? Meaning { get; init; }
}

/// <summary>The families of cues.</summary>
public enum CueKind
{
    /// <summary>The move word: which way, how far.</summary>
    MoveWord = 0,

    /// <summary>A tick of the hold clock before a nudge.</summary>
    ClockTick = 1,

    /// <summary>On target: stop moving.</summary>
    OnTarget = 2,

    /// <summary>The best of the sweep was passed.</summary>
    PeakPassed = 3,

    /// <summary>Everything is well.</summary>
    Heartbeat = 4,

    /// <summary>Warning: recording, receiver, disk.</summary>
    Warning = 5,

    /// <summary>Caution: lock lost, sensor stale, feed silent.</summary>
    Caution = 6,

    /// <summary>Lock gained.</summary>
    LockGained = 7,

    /// <summary>A minute, or ten seconds, before rise; end in a minute.</summary>
    Phase = 8,

    /// <summary>The test sound.</summary>
    Test = 9,

    /// <summary>A feed that was lost is back.</summary>
    FeedBack = 10,

    /// <summary>A key was taken.</summary>
    Taken = 11,

    /// <summary>A key was refused; why stands on the screen.</summary>
    Refused = 12,
}

/// <summary>The tone of the peak search.</summary>
/// <param name="FrequencyHz">Pitch: 880 Hz at the expected level, a semitone lower for each dB missing.</param>
/// <param name="PulsesPerSecond">4 rising, 2 steady, 0 = unbroken, falling.</param>
public readonly record struct PeakTone(double FrequencyHz, double PulsesPerSecond);
