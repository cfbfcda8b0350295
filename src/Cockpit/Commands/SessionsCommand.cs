using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit sessions: what was flown, a row each.</summary>
public static class SessionsCommand
{
    private const int CausesShown = 2;

    private static readonly OutputColumn[] Columns =
    [
        new("session", null, 0), new("from_utc", "UTC", -19), new("satellite", "satellite", -14), new("kind", "kind", -9), new("top_deg", "top°", 5),
        new("sent", "sent", 6), new("received", "received", 8), new("share", "%", 6), new("length_s", "seconds", 8), new("causes", "lost by", -30),
        new("state", "state", -8),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<string> sessions = new SessionOptions().Sessions;
        var filter = new SessionFilter();
        Option<string> sort = new("--sort") { HelpName = "date|share|lost|top|length", Description = "The order", DefaultValueFactory = _ => "date" };
        sort.AcceptOnlyFromAmong("date", "share", "lost", "top", "length");
        Option<bool> reverse = new("--reverse") { Description = "The other way round" };
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "sessions",
            """
            List the sessions: when, which satellite, how high, lines received of sent, what the rest was lost by, damaged or not.

            Examples:
              cockpit sessions
              cockpit sessions --satellite "PETREL 2" --sort share
              cockpit sessions --from 2026-11-01T00:00:00Z --top 40 --state damaged
            """)
        {
            sessions, sort, reverse, format, MendCommand.Create(), PackCommand.CreatePack(), PackCommand.CreateUnpack(),
        };
        filter.AddTo(command);
        command.SetAction(parsed =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!SessionIndex.Read(parsed.GetRequiredValue(sessions), complaints).Try(out ImmutableArray<SessionEntry> entries, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            IEnumerable<SessionEntry> sorted = Sorted(filter.Of(parsed, entries), parsed.GetValue(sort));
            Print(
                parsed.GetValue(reverse) ? sorted.Reverse() : sorted,
                new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(format), Columns));
            return 0;
        });
        return command;
    }

    private static IEnumerable<SessionEntry> Sorted(IEnumerable<SessionEntry> entries, string? order) => order switch
    {
        "share" => entries.OrderBy(e => e.Share ?? 2.0),
        "lost" => entries.OrderByDescending(e => e.Sent - e.Received),
        "top" => entries.OrderByDescending(e => e.TopDegrees ?? -1.0),
        "length" => entries.OrderByDescending(e => e.LengthSeconds),
        _ => entries,
    };

    private static void Print(IEnumerable<SessionEntry> entries, OutputRows rows)
    {
        rows.Begin();
        foreach (SessionEntry e in entries)
        {
            string causes = string.Join(' ', e.Causes.Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Cause}:{c.Lines}")));
            string brief = string.Join(", ", e.Causes.Take(CausesShown).Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Cause} {c.Lines}")));
            rows.Add(
                Cell.Of(e.Name), e.FromUtc is { } from ? Cell.Of(from, 3) : Cell.None, Cell.Of(e.Satellite), Cell.Of(e.Kind), Cell.Of(e.TopDegrees, 2, 0),
                Cell.Of(e.Sent), Cell.Of(e.Received), Cell.Of(100.0 * e.Share, 2, 1), Cell.Of(e.LengthSeconds, 1, 0), Cell.Of(causes, brief), Cell.Of(e.State));
        }

        rows.End();
    }
}
