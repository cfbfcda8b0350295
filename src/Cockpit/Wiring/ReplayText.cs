using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Prints what the screen of a session showed, without a terminal.</summary>
/// <param name="output">Where the pages go.</param>
/// <param name="printer">Makes them.</param>
public sealed class ReplayText(TextWriter output, PagePrinter printer)
{
    /// <summary>Prints a page for each moment, in order of time, under a line that names it.</summary>
    /// <param name="envelopes">The session.</param>
    /// <param name="moments">Session times with what is to see there, empty where nothing was named; the same time is printed once.</param>
    /// <param name="stops">For the time line; null where they were not asked for.</param>
    public void Print(ImmutableArray<Envelope> envelopes, IEnumerable<(TimeSpan At, string Words)> moments, ImmutableArray<Milestone>? stops)
    {
        var wanted = new Queue<IGrouping<TimeSpan, string>>(moments.GroupBy(moment => moment.At, moment => moment.Words).OrderBy(group => group.Key));
        TimeSpan length = envelopes[^1].Elapsed;
        Fold fold = new();
        Snapshot? now = null;
        foreach (Envelope envelope in envelopes)
        {
            while (now is not null && wanted.TryPeek(out IGrouping<TimeSpan, string>? next) && next.Key < envelope.Elapsed)
            {
                Print(now, wanted.Dequeue(), length, stops);
            }

            if (wanted.Count == 0)
            {
                return;
            }

            now = fold.Step(envelope);
            printer.Follow(now);
        }

        while (now is not null && wanted.TryDequeue(out IGrouping<TimeSpan, string>? last))
        {
            Print(now, last, length, stops);
        }
    }

    private void Print(Snapshot now, IGrouping<TimeSpan, string> moment, TimeSpan length, ImmutableArray<Milestone>? stops)
    {
        TimeSpan at = moment.Key < length ? moment.Key : length;
        string words = string.Join("; ", moment.Where(text => text.Length > 0).Distinct(StringComparer.Ordinal));
        output.WriteLine(TextFilter.Clean(string.Create(
            CultureInfo.InvariantCulture, $"== {at:hh\\:mm\\:ss} of {length:hh\\:mm\\:ss}, {now.Utc:yyyy-MM-dd HH:mm:ss} UTC{(words.Length > 0 ? ": " + words : "")}")));
        PrintedPage page = printer.Print(new PlayerNow(1.0, Paused: true, at, length, stops));
        foreach (string line in page.Lines.Concat(page.Failures))
        {
            output.WriteLine(TextFilter.Clean(line).TrimEnd());
        }
    }
}
