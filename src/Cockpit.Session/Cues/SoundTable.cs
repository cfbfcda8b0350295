using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>One sound for people who learn them.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Priority">1 the most urgent, 4 the least.</param>
/// <param name="Notes">Its notes, in words.</param>
/// <param name="When">When it is heard.</param>
/// <param name="Cue">The sound itself, an example where it depends on the error; null for the peak tone, which goes on.</param>
public sealed record SoundRow(string Name, int Priority, string Notes, string When, Cue? Cue);

/// <summary>The sounds as a table, made from the sounds themselves so that it cannot go stale.</summary>
public static class SoundTable
{
    private static readonly Angle Beam = Angle.FromDegrees(15.0);

    /// <summary>All sounds, the most urgent first; the words for a beam of 15 degrees.</summary>
    public static ImmutableArray<SoundRow> Rows { get; } =
    [
        Of("warning", CueTable.Warning("recording stopped"), "recording or receiver gone; every 10 s until the key or until it is over"),
        Of("caution", CueTable.Caution("lock lost"), "lock lost, feed silent; at most 3 times, 10 s apart"),
        Of("feed back", CueTable.FeedBack("signal is back"), "a feed whose loss was heard is there again"),
        Word("right, a little", 0.2, 0.0),
        Word("right", 0.5, 0.0),
        Word("far right", 0.8, 0.0),
        Word("left, a little", -0.2, 0.0),
        Word("left", -0.5, 0.0),
        Word("far left", -0.8, 0.0),
        Word("up, a little", 0.0, 0.25),
        Word("up, more", 0.0, 0.5),
        Word("down, a little", 0.0, -0.25),
        Word("down, more", 0.0, -0.5),
        Word("right and up", 0.5, 0.5),
        Word("left and down", -0.5, -0.5),
        Word("right, pressing", 0.5, 0.0, pressing: true),
        Of("clock tick", CueTable.ClockTick(1), "3, 2, 1 s before a nudge is called"),
        Of("on target", CueTable.OnTarget, "a sensor says: you are there, stop"),
        Of("key: moved", CueTable.Moved, "a key was taken"),
        Of("key: best", CueTable.Best, "the key was taken as: the signal is at its best"),
        Of("key: seen", CueTable.Seen, "the key was taken as: alarm seen"),
        Of("key: refused", CueTable.Refused("nothing was called"), "the key did nothing; why stands on the screen"),
        Of("best passed", CueTable.PeakPassed, "in a search: the best lies 0.7 dB behind you"),
        new("peak tone", 3, "880 Hz at the expected level, a semitone lower for each dB missing, down to 440 Hz", "in a search: 4 pulses a second rising, 2 steady, unbroken falling", null),
        Of("lock gained", CueTable.LockGained, "once, after 5 s or more without lock"),
        Of("rise in 60 s", CueTable.RiseIn60, "once"),
        Of("rise in 10 s", CueTable.RiseIn10, "once"),
        Of("big turn", CueTable.BigTurn, "once, two minutes before the pan turns far overhead"),
        Of("end in 60 s", CueTable.EndIn60, "once"),
        Of("heartbeat", CueTable.Heartbeat, "every 5 s while all is well"),
        Of("test", CueTable.Test, "on its key: left, right, both"),
    ];

    private static SoundRow Word(string name, double rightB, double upB, bool pressing = false)
    {
        Cue? cue = MoveWord.For(new AimError(Beam * rightB, Beam * upB, Beam * rightB), Beam, Mount.Free, pressing);
        return cue is null
            ? throw new ArgumentOutOfRangeException(nameof(rightB), "the example is too small to be said")
            : Of("move " + name, cue, pressing ? "twice: lines are being lost, or no key came for 4 s" : "at the nudge");
    }

    private static SoundRow Of(string name, Cue cue, string when) => new(name, cue.Priority, Notes(cue), when, cue);

    private static string Notes(Cue cue)
    {
        List<(string Note, int Count)> notes = [];
        foreach (Tone tone in cue.Tones)
        {
            string note = Note(tone);
            if (notes.Count > 0 && string.Equals(notes[^1].Note, note, StringComparison.Ordinal)) { notes[^1] = (note, notes[^1].Count + 1); }
            else { notes.Add((note, 1)); }
        }

        return string.Join(", ", notes.Select(n => n.Count == 1 ? n.Note : $"{n.Count} x {n.Note}"));
    }

    private static string Note(Tone tone)
    {
        string timbre = tone.Timbre == Timbre.Rich ? " rich" : string.Empty;
        string level = tone.LevelDb == 0.0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" at {tone.LevelDb:0} dB");
        string side = tone.Pan > 0.0 ? " right" : tone.Pan < 0.0 ? " left" : string.Empty;
        return string.Create(CultureInfo.InvariantCulture, $"{tone.FrequencyHz:0} Hz {tone.LengthMs:0} ms{timbre}{level}{side}");
    }
}
