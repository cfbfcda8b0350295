using System.Collections.Immutable;
using System.Text;
using Cockpit.Session.Events;

namespace Cockpit.Screen.Keys;

/// <summary>Where a key has a meaning.</summary>
public enum KeyScope
{
    /// <summary>Everywhere.</summary>
    Always = 0,

    /// <summary>In a pass that happens now (live, demo).</summary>
    Pass = 1,

    /// <summary>In a replay.</summary>
    Replay = 2,

    /// <summary>In a rehearsal whose dish is turned by keys, beside those of a pass.</summary>
    Rehearsal = 3,
}

/// <summary>One meaning and the keys that have it.</summary>
/// <param name="Keys">Names of the keys: a letter in upper case, a sign, or "Space", "Enter", "Left", "Right", "Up", "Down", "PageUp", "PageDown", "Home", "End", "Ctrl-C"; an arrow with "Shift-" before it.</param>
/// <param name="Shown">How the keys are written for people.</param>
/// <param name="Hint">One or two words for the line of hints; empty = not in that line.</param>
/// <param name="Help">A few words for the help and the documentation, at most 18 characters.</param>
/// <param name="Scope">Where it holds.</param>
/// <param name="Action">What it asks for.</param>
public sealed record KeyEntry(ImmutableArray<string> Keys, string Shown, string Hint, string Help, KeyScope Scope, KeyAction Action);

/// <summary>The one table of keys; help, hints and documentation come from it.</summary>
public static class KeyTable
{
    /// <summary>What stands before the name of an arrow that is pressed with Shift.</summary>
    public const string Shift = "Shift-";

    /// <summary>How far an arrow turns the head of a rehearsal.</summary>
    public const double SmallStepDegrees = 1.0;

    /// <summary>The same with Shift.</summary>
    public const double LargeStepDegrees = 5.0;

    /// <summary>Every meaning, in the order of the help.</summary>
    public static ImmutableArray<KeyEntry> All { get; } =
    [
        Said(["Space"], "Space", "moved", "moved, best, seen", OperatorKey.OneKey),
        Said(["Enter", "P"], "Enter P", "peaked", "best: on target", OperatorKey.Peaked),
        Said(["X"], "X", "not moved", "nudge was not done", OperatorKey.NotMoved),
        Said(["S"], "S", "search", "search tone on/off", OperatorKey.Search),
        Said(["M"], "M", "mute", "guidance on or off", OperatorKey.Mute),
        Said(["A"], "A", "seen", "silence the alarm", OperatorKey.Acknowledge),
        Said(["R"], "R", "", "say the word again", OperatorKey.Again),
        Said(["T"], "T", "", "test sound", OperatorKey.TestSound),
        Said(["+", "="], "+", "", "louder by 3 dB", OperatorKey.Louder),
        Said(["-", "_"], "-", "", "softer by 3 dB", OperatorKey.Softer),
        Said(["C"], "C", "", "correct the clock", OperatorKey.CorrectClock),
        Said(["D"], "D", "", "on sun or moon now", OperatorKey.OnDirection),
        Said(["G"], "G", "", "other direction", OperatorKey.AnotherDirection),
        new(["1", "2", "3", "4", "5"], "1-5", "", "take another pass", KeyScope.Pass, new ChooseAction(0)),
        new(["W"], "W", "", "code for the phone", KeyScope.Pass, new PairAction()),
        new(["Left", "Right", "Up", "Down"], "Arrows", "turn", "turn dish by 1°", KeyScope.Rehearsal, new TurnAction(SmallStepDegrees)),
        new(["Shift-Left", "Shift-Right", "Shift-Up", "Shift-Down", "J", "L", "I", "K"], "IJKL", "by 5°", "5°, Shift-arrows", KeyScope.Rehearsal, new TurnAction(LargeStepDegrees)),
        Played(["Space"], "Space", "pause", "stop or go on", PlayerVerb.Pause, 0),
        Played(["Up"], "Up", "next", "next mark, gap ...", PlayerVerb.Next, 0),
        Played(["Down"], "Down", "last", "the one before", PlayerVerb.Previous, 0),
        Played(["F"], "F", "which", "which: marks, gaps", PlayerVerb.Which, 0),
        Played(["+", "="], "+", "faster", "faster", PlayerVerb.Faster, 0),
        Played(["-", "_"], "-", "slower", "slower", PlayerVerb.Slower, 0),
        Played(["Left"], "Left", "-10 s", "back 10 s", PlayerVerb.Jump, -10),
        Played(["Right"], "Right", "+10 s", "on 10 s", PlayerVerb.Jump, 10),
        Played(["PageUp"], "PgUp", "", "back 60 s", PlayerVerb.Jump, -60),
        Played(["PageDown"], "PgDn", "", "on 60 s", PlayerVerb.Jump, 60),
        Played(["Home"], "Home", "", "to the start", PlayerVerb.ToStart, 0),
        Played(["End"], "End", "", "to the end", PlayerVerb.ToEnd, 0),
        new(["H", "?"], "H ?", "help", "help on or off", KeyScope.Always, new ViewAction(ViewVerb.Help)),
        new(["Q"], "Q", "quit", "leave", KeyScope.Always, new QuitAction(AtOnce: false)),
        new(["N"], "N", "theme", "next theme", KeyScope.Always, new ViewAction(ViewVerb.NextTheme)),
        new(["V"], "V", "", "picture, review", KeyScope.Always, new ViewAction(ViewVerb.Picture)),
        new(["Ctrl-C"], "Ctrl-C", "", "leave at once", KeyScope.Always, new QuitAction(AtOnce: true)),
    ];

    /// <summary>The meanings that hold in a replay, or in a pass that happens now.</summary>
    /// <param name="replay">In a replay.</param>
    /// <param name="steers">In a pass whose dish is turned by keys.</param>
    public static IEnumerable<KeyEntry> For(bool replay, bool steers = false) => All.Where(entry => entry.Scope switch
    {
        KeyScope.Always => true,
        KeyScope.Replay => replay,
        KeyScope.Rehearsal => steers && !replay,
        _ => !replay,
    });

    /// <summary>The meaning of a key; null when it has none here. An arrow with Shift that means nothing of its own is the arrow.</summary>
    /// <param name="key">Its name.</param>
    /// <param name="replay">In a replay.</param>
    /// <param name="steers">In a pass whose dish is turned by keys.</param>
    public static KeyEntry? Find(string key, bool replay, bool steers = false)
    {
        ArgumentNullException.ThrowIfNull(key);
        return For(replay, steers).FirstOrDefault(entry => entry.Keys.Contains(key, StringComparer.Ordinal))
            ?? (key.StartsWith(Shift, StringComparison.Ordinal) ? Find(key[Shift.Length..], replay, steers) : null);
    }

    /// <summary>Why a key does nothing here, one sentence; null when the key is in no table at all.</summary>
    public static string? WhyNot(string key, bool replay)
    {
        if (string.Equals(key, "Ctrl-Z", StringComparison.Ordinal))
        {
            return "Ctrl-Z does nothing here: a program that is stopped loses the pass. Q leaves.";
        }

        return Find(key, !replay) is { } entry
            ? replay
                ? $"{key} ({entry.Hint}) does nothing in a replay: the pass is over and only played again."
                : $"{key} works in a replay only."
            : null;
    }

    /// <summary>The table for the documentation, in Markdown.</summary>
    public static string ToMarkdown()
    {
        StringBuilder text = new("| key | where | what it does |\n| --- | --- | --- |\n");
        foreach (KeyEntry entry in All)
        {
            string where = entry.Scope switch
            {
                KeyScope.Pass => "pass",
                KeyScope.Replay => "replay",
                KeyScope.Rehearsal => "rehearsal",
                _ => "everywhere",
            };
            text.Append("| ").Append(entry.Shown.Replace(" ", ", ", StringComparison.Ordinal)).Append(" | ").Append(where).Append(" | ").Append(entry.Help).Append(" |\n");
        }

        return text.ToString();
    }

    private static KeyEntry Said(ImmutableArray<string> keys, string shown, string hint, string help, OperatorKey key) =>
        new(keys, shown, hint, help, KeyScope.Pass, new OperatorAction(key));

    private static KeyEntry Played(ImmutableArray<string> keys, string shown, string hint, string help, PlayerVerb verb, int seconds) =>
        new(keys, shown, hint, help, KeyScope.Replay, new PlayerAction(verb, TimeSpan.FromSeconds(seconds)));
}
