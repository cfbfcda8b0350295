using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Screen.Panels;
using Cockpit.Session.Review;

namespace Cockpit.Commands;

/// <summary>The moments of a session that are to be printed.</summary>
/// <param name="Elapsed">Session times.</param>
/// <param name="Utc">Times in UTC.</param>
/// <param name="Kinds">Every milestone of these kinds.</param>
public sealed record ReplayMoments(ImmutableArray<TimeSpan> Elapsed, ImmutableArray<DateTimeOffset> Utc, ImmutableArray<MilestoneKind> Kinds)
{
    /// <summary>How they are written.</summary>
    public const string Grammar = "05:30 or 1:05:30 from the start, 2026-11-25T10:15:00Z, marks, nudges, gaps, alarms";

    private static readonly string[] Spans = [@"m\:ss", @"mm\:ss", @"h\:mm\:ss", @"hh\:mm\:ss"];

    /// <summary>Reads moments with commas between them.</summary>
    /// <param name="text">For instance 00:30,05:30,gaps.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<ReplayMoments> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        List<TimeSpan> elapsed = [];
        List<DateTimeOffset> utc = [];
        List<MilestoneKind> kinds = [];
        foreach (string item in text.Split(',', StringSplitOptions.TrimEntries))
        {
            if (TimeSpan.TryParseExact(item, Spans, CultureInfo.InvariantCulture, out TimeSpan at))
            {
                elapsed.Add(at);
            }
            else if (Enum.GetValues<MilestoneKind>().Where(kind => string.Equals(TimelineWords.Plural(kind), item, StringComparison.Ordinal)).ToArray() is [var kind])
            {
                kinds.Add(kind);
            }
            else if (InstantText.Read(item, source).Try(out DateTimeOffset instant, out _))
            {
                utc.Add(instant);
            }
            else
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(item)} is no moment of a session; write {Grammar}, with commas between several");
            }
        }

        return new ReplayMoments([.. elapsed], [.. utc], [.. kinds]);
    }
}
