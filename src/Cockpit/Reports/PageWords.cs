using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>Words of the page.</summary>
internal static class PageWords
{
    private const int LongestName = 24;

    /// <summary>What a gap is, when one points at it.</summary>
    public static string Hint(Gap gap, int number) => string.Create(
        CultureInfo.InvariantCulture,
        $"{number}: {CauseWords.NameOf(gap.Cause)}, {gap.FromUtc:HH:mm:ss} UTC, {(gap.ToUtc - gap.FromUtc).TotalSeconds:0.0} s, {gap.Lines} lines, {100.0 * gap.Confidence:0} % sure");

    /// <summary>A name that fits beside a point.</summary>
    public static string Short(string name) => name.Length > LongestName ? name[..LongestName] + "…" : name;

    /// <summary>A cause in a sentence for people.</summary>
    public static string Meaning(GapCause cause) => cause switch
    {
        GapCause.Late => "a nudge was done late, or not at all",
        GapCause.Amount => "a nudge went too far or not far enough",
        GapCause.WrongWay => "a nudge went the wrong way",
        GapCause.NotFound => "the satellite was not found yet",
        GapCause.OffAim => "the dish was off without a nudge: drift, sag, a knock",
        GapCause.Fade => "something was in the way for a while, or fading",
        GapCause.Skyline => "trees or roofs at the edge of the sky",
        GapCause.Weak => "below the need even with perfect aim",
        GapCause.Overload => "the receiver clipped",
        GapCause.FeedSilent => "the feed told nothing",
        GapCause.RecorderStopped => "signal and lock were good, nothing was counted",
        GapCause.NotTransmitting => "nothing at any aim",
        GapCause.Sun => "the plan led the dish around the sun",
        _ => "the evidence does not say",
    };
}
