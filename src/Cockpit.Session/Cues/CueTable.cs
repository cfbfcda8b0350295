using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>Every sound but the move word and the peak tone, which depend on the error and the level.</summary>
/// <remarks>
/// <code>
/// sound          priority  notes                                        when
/// warning        1         440 Hz rich, 3 x 200 ms at 3 a second        every 10 s until the key or until it is over
/// caution        2         784, 523 Hz rich, 120 ms each                at most 3 times, 10 s apart, then the screen only
/// feed back      2         523, 784 Hz rich, 120 ms each                once, when a feed comes back whose loss was heard
/// move word      3         660 Hz, then 440 to 989 Hz, see MoveWord     at the nudge; again after 4 s without a key
/// clock tick     3         660 Hz, 30 ms                                3, 2, 1 s before the nudge
/// on target      3         990 Hz, 30 ms                                a sensor says: you are there, stop
/// key: moved     3         880 Hz, 60 ms                                the key was taken as "moved", or as what it says
/// key: best      3         784, 988 Hz, 60 ms each                      it was taken as "best"
/// key: seen      3         523 Hz, 60 ms                                it was taken as "seen"
/// key: refused   3         440 Hz, 2 x 90 ms                            it did nothing; why stands on the screen
/// best passed    3         990 Hz, 2 x 30 ms                            in a search, 0.7 dB below the best after it
/// peak tone      3         880 Hz, a semitone lower for each dB         in a search; 4 pulses a second rising, 2 steady, unbroken falling
/// lock gained    4         523, 659, 784 Hz, 80 ms each                 once, after 5 s or more without lock
/// rise in 60 s   4         523, 659 Hz, 80 ms each                      once
/// rise in 10 s   4         the same twice                               once
/// big turn       4         523, 784, 523, 784 Hz, 120 ms each           once, two minutes before the pan turns far overhead
/// end in 60 s    4         784, 659, 523 Hz, 80 ms each                 once
/// heartbeat      4         660 Hz, 40 ms, 6 dB below the word           every 5 s while all is well; it has to be heard outdoors
/// test           3         660 Hz left, right, both, 150 ms each        on its key
/// </code>
/// Silence means: nothing to do. All fundamentals lie between 440 and 990 Hz: small loudspeakers give little below, and
/// hearing loss of age begins above (ISO 7029). Four families are as many as people tell apart without thinking
/// (MIL-STD-1472E, 5.3).
/// </remarks>
public static class CueTable
{
    private const double HeartbeatDb = -6.0;

    /// <summary>Something that ends the recording of the pass.</summary>
    /// <param name="text">What, in words.</param>
    public static Cue Warning(string text) => new(
        CueKind.Warning,
        1,
        text,
        [Rich(0.0, 200.0, 440.0), Rich(1000.0 / 3.0, 200.0, 440.0), Rich(2000.0 / 3.0, 200.0, 440.0)]);

    /// <summary>Something that needs attention soon.</summary>
    /// <param name="text">What, in words.</param>
    public static Cue Caution(string text) => new(CueKind.Caution, 2, text, [Rich(0.0, 120.0, 784.0), Rich(160.0, 120.0, 523.0)]);

    /// <summary>A feed whose loss was heard is back: the caution turned round.</summary>
    /// <param name="text">Which, in words.</param>
    public static Cue FeedBack(string text) => new(CueKind.FeedBack, 2, text, [Rich(0.0, 120.0, 523.0), Rich(160.0, 120.0, 784.0)]);

    /// <summary>The tick of the hold clock.</summary>
    /// <param name="secondsBefore">Seconds to the call of the nudge.</param>
    public static Cue ClockTick(int secondsBefore) => new(CueKind.ClockTick, 3, string.Create(CultureInfo.InvariantCulture, $"nudge in {secondsBefore} s"), [Plain(0.0, 30.0, MoveWord.ReferenceHz)]);

    /// <summary>The dish is there: stop.</summary>
    public static Cue OnTarget { get; } = new(CueKind.OnTarget, 3, "on target", [Plain(0.0, 30.0, 990.0)]);

    /// <summary>A key was taken.</summary>
    public static Cue Moved { get; } = new(CueKind.Taken, 3, "taken", [Plain(0.0, 60.0, 880.0)]);

    /// <summary>A key was taken as "best".</summary>
    public static Cue Best { get; } = new(CueKind.Taken, 3, "taken: best", [Plain(0.0, 60.0, 784.0), Plain(90.0, 60.0, 988.0)]);

    /// <summary>A key was taken as "seen".</summary>
    public static Cue Seen { get; } = new(CueKind.Taken, 3, "taken: seen", [Plain(0.0, 60.0, 523.0)]);

    /// <summary>A key did nothing.</summary>
    /// <param name="why">Why, in words.</param>
    public static Cue Refused(string why) => new(CueKind.Refused, 3, why, [Plain(0.0, 90.0, 440.0), Plain(150.0, 90.0, 440.0)]);

    /// <summary>The best of the sweep lies behind.</summary>
    public static Cue PeakPassed { get; } = new(CueKind.PeakPassed, 3, "best passed, go back", [Plain(0.0, 30.0, 990.0), Plain(90.0, 30.0, 990.0)]);

    /// <summary>The decoder has locked.</summary>
    public static Cue LockGained { get; } = new(CueKind.LockGained, 4, "lock gained", Row(523.0, 659.0, 784.0));

    /// <summary>A minute to the rise.</summary>
    public static Cue RiseIn60 { get; } = new(CueKind.Phase, 4, "rise in 60 s", Row(523.0, 659.0));

    /// <summary>Ten seconds to the rise.</summary>
    public static Cue RiseIn10 { get; } = new(
        CueKind.Phase,
        4,
        "rise in 10 s",
        [Plain(0.0, 80.0, 523.0), Plain(80.0, 80.0, 659.0), Plain(240.0, 80.0, 523.0), Plain(320.0, 80.0, 659.0)]);

    /// <summary>Two minutes to the big turn of the pan overhead.</summary>
    public static Cue BigTurn { get; } = new(
        CueKind.Phase,
        4,
        "big turn of the pan in two minutes",
        [Plain(0.0, 120.0, 523.0), Plain(140.0, 120.0, 784.0), Plain(280.0, 120.0, 523.0), Plain(420.0, 120.0, 784.0)]);

    /// <summary>A minute to the end.</summary>
    public static Cue EndIn60 { get; } = new(CueKind.Phase, 4, "end in 60 s", Row(784.0, 659.0, 523.0));

    /// <summary>All is well, and the sound works.</summary>
    public static Cue Heartbeat { get; } = new(
        CueKind.Heartbeat,
        4,
        "all is well",
        [new Tone(0.0, 40.0, MoveWord.ReferenceHz, HeartbeatDb, 0.0, Timbre.Plain)]);

    /// <summary>Left, right, both.</summary>
    public static Cue Test { get; } = new(
        CueKind.Test,
        3,
        "test sound: left, right, both",
        [
            new Tone(0.0, 150.0, MoveWord.ReferenceHz, 0.0, -Pan.LargestDb, Timbre.Plain),
            new Tone(300.0, 150.0, MoveWord.ReferenceHz, 0.0, Pan.LargestDb, Timbre.Plain),
            new Tone(600.0, 150.0, MoveWord.ReferenceHz, 0.0, 0.0, Timbre.Plain),
        ]);

    private static ImmutableArray<Tone> Row(params ReadOnlySpan<double> pitches)
    {
        ImmutableArray<Tone>.Builder tones = ImmutableArray.CreateBuilder<Tone>(pitches.Length);
        for (int i = 0; i < pitches.Length; i++) { tones.Add(Plain(80.0 * i, 80.0, pitches[i])); }

        return tones.ToImmutable();
    }

    private static Tone Plain(double startMs, double lengthMs, double hertz) => new(startMs, lengthMs, hertz, 0.0, 0.0, Timbre.Plain);

    private static Tone Rich(double startMs, double lengthMs, double hertz) => new(startMs, lengthMs, hertz, 0.0, 0.0, Timbre.Rich);
}
