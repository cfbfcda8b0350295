using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What a cue is in spoken words, as a row of clips that were made before.</summary>
/// <remarks>
/// A move is spoken in place of its notes; alarms keep theirs and the words follow. Ticks, heartbeat and the tone of the search are
/// never spoken. A number is the words that it falls into, so that a few clips say them all.
/// </remarks>
public static class SpokenCue
{
    /// <summary>Time that a word is given, s: what speech programs need at a brisk rate, a little more than the longest.</summary>
    public const double SecondsPerWord = 0.55;

    private const int LargestNumber = 180;
    private const string Hold = "hold";
    private static readonly char[] Between = [' ', ',', ':'];

    private static readonly ImmutableArray<string> Units =
    [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    ];

    private static readonly ImmutableArray<string> Tens = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    private const string Hundred = "one hundred";

    private static readonly ImmutableArray<string> Phrases =
    [
        "now", "left", "right", "up", "down", "warning", "signal gone", "signal lost", "signal back", "lock lost", "recording stopped", "trouble", "sun ahead",
        "one minute to the start", "ten seconds", "big turn ahead", "one minute to the end", "locked",
        Hold, "holds", "to", "skipped", "sun", "degrees", "off",
    ];

    /// <summary>Everything that can be asked for.</summary>
    public static ImmutableArray<string> Vocabulary { get; } = [.. Phrases, .. Units, .. Tens, Hundred];

    /// <summary>The clips of a cue in their order; none when it is not spoken.</summary>
    public static ImmutableArray<string> Clips(Cue cue)
    {
        ArgumentNullException.ThrowIfNull(cue);
        return cue.Kind switch
        {
            CueKind.MoveWord => Said(cue),
            CueKind.Warning => [cue.Text.StartsWith("recording", StringComparison.Ordinal) ? "recording stopped" : "signal gone"],
            CueKind.Caution => cue.Text.StartsWith(Hold, StringComparison.Ordinal) ? Said(cue) : [Caution(cue.Text)],
            CueKind.FeedBack => ["signal back"],
            CueKind.LockGained => ["locked"],
            CueKind.Phase => [cue == CueTable.RiseIn60 ? "one minute to the start" : cue == CueTable.RiseIn10 ? "ten seconds" : cue == CueTable.BigTurn ? "big turn ahead" : "one minute to the end"],
            _ => [],
        };
    }

    /// <summary>Whether the words stand in place of the notes.</summary>
    public static bool ReplacesNotes(CueKind kind) => kind is CueKind.MoveWord or CueKind.Phase;

    /// <summary>How long the words of a cue take at most, s.</summary>
    public static double Seconds(Cue cue)
    {
        double seconds = 0.0;
        foreach (string clip in Clips(cue)) { seconds += SecondsPerWord * (1 + clip.Count(letter => letter == ' ')); }

        return seconds;
    }

    private static ImmutableArray<string> Said(Cue cue)
    {
        ImmutableArray<string>.Builder clips = ImmutableArray.CreateBuilder<string>();
        if (cue.Meaning is { Pressing: true }) { clips.Add("now"); }

        foreach (string word in cue.Text.Split(Between, StringSplitOptions.RemoveEmptyEntries))
        {
            if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out int number)) { clips.AddRange(Number(number)); }
            else { clips.Add(word); }
        }

        return clips.ToImmutable();
    }

    private static string Caution(string text) => text switch
    {
        _ when text.StartsWith("lock", StringComparison.Ordinal) => "lock lost",
        _ when text.StartsWith("the sun", StringComparison.Ordinal) => "sun ahead",
        _ when text.StartsWith("a part", StringComparison.Ordinal) => "trouble",
        _ => "signal lost",
    };

    private static IEnumerable<string> Number(int number)
    {
        number = Math.Min(number, LargestNumber);
        if (number >= 100)
        {
            yield return Hundred;
            number -= 100;
            if (number == 0) { yield break; }
        }

        if (number >= 20)
        {
            yield return Tens[(number / 10) - 2];
            number %= 10;
            if (number == 0) { yield break; }
        }

        yield return Units[number];
    }
}
