using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Reports;
using Cockpit.Session.Review;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit progress: whether it gets better from pass to pass, as far as the numbers carry it.</summary>
public static class ProgressCommand
{
    private static readonly OutputColumn[] Columns =
    [
        new("from_utc", "UTC", -19), new("satellite", "satellite", -14), new("kind", "kind", -9), new("top_deg", "top°", 5), new("share", "%", 6),
        new("sent", "sent", 5), new("received", "received", 8),
        new("reaction_s", "reaction", 8), new("reaction_sd_s", "+-", 5), new("reactions", "n", 3), new("amount", "amount", 7), new("amount_sd", "+-", 5), new("amounts", "n", 3),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<string> sessions = new SessionOptions().Sessions;
        Option<OutputFormat> format = CommonOptions.Format();
        var page = new Option<string>("--page") { HelpName = "FILE.html", Description = "Also write one page with pictures, which stands alone" };
        var command = new Command(
            "progress",
            """
            Say whether it gets better from pass to pass: share of the lines, reaction, amounts; a change is named only where the numbers carry it.

            Sessions that watched less than 100 s of their pass are left out. The trend of the lines is freed from the height of the passes.
            CSV has a row for each pass; JSON has the passes, the figures with their trends, and the groups by top elevation and date.

            Examples:
              cockpit progress
              cockpit progress --format csv
              cockpit progress --page progress.html
            """)
        {
            sessions, format, page,
        };
        command.SetAction(parsed =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!SessionIndex.Read(parsed.GetRequiredValue(sessions), complaints).Try(out ImmutableArray<SessionEntry> all, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            Progress progress = Progress.Of(all.Select(e => e.Pass()).OfType<ProgressPass>());
            if (parsed.GetValue(page) is { } file && WholeFile.Write(file, ProgressPage.Of(progress, all.Length), "the page", "--page") is { } trouble)
            {
                complaints.WriteLine(trouble.ToString());
                return CommandRoot.Failed;
            }

            Print(output, progress, all.Length, parsed.GetValue(format));
            return 0;
        });
        return command;
    }

    private static void Print(TextWriter output, Progress progress, int all, OutputFormat format)
    {
        switch (format)
        {
            case OutputFormat.Json:
                output.Write(ProgressJson.Of(progress));
                break;
            case OutputFormat.Csv:
                Rows(progress, new OutputRows(output, format, Columns));
                break;
            default:
                foreach (string line in ProgressSummary.Lines(progress, all))
                {
                    output.WriteLine(line);
                }

                break;
        }
    }

    private static void Rows(Progress progress, OutputRows rows)
    {
        rows.Begin();
        foreach (ProgressPass p in progress.Passes)
        {
            rows.Add(
                Cell.Of(p.FromUtc, 3), Cell.Of(p.Satellite), Cell.Of(p.Kind), Cell.Of(p.TopDegrees, 2, 0), Cell.Of(p.SharePercent, 2, 1),
                Cell.Of(p.Sent), Cell.Of(p.Received),
                Cell.Of(p.ReactionSeconds?.Value, 3, 1), Cell.Of(p.ReactionSeconds?.Sd, 3, 1), Cell.Of(p.ReactionSeconds?.Count),
                Cell.Of(p.Amount?.Value, 3, 2), Cell.Of(p.Amount?.Sd, 3, 2), Cell.Of(p.Amount?.Count));
        }

        rows.End();
    }
}
