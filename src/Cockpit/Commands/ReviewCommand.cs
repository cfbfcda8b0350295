using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Session.Review;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit review: what a pass lost, why, and what to do better.</summary>
public static class ReviewCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        var path = new Argument<string?>("session") { HelpName = "SESSION", Description = "Folder of the session; the latest where missing", Arity = ArgumentArity.ZeroOrOne };
        Option<string> sessions = new SessionOptions().Sessions;
        Option<OutputFormat> format = CommonOptions.Format();
        var page = new Option<string>("--page") { HelpName = "FILE.html", Description = "Also write one page with pictures and a map, which stands alone" };
        Option<Angle?> halfAngle = CommonOptions.Value(
            "--half-angle", "DEG", "With --page: the instrument's scan to either side of the vertical, 55.4 where missing", (text, source) => AngleText.Read(text, source, 0.0, 89.9));
        var command = new Command(
            "review",
            """
            Say what a pass lost, why, and what to do better: lines received, every gap with its cause and how sure, the hand, advice.

            Examples:
              cockpit review
              cockpit review sessions/2026-11-25T172440Z-petrel-2
              cockpit review --page pass.html
              cockpit review --format json
            """)
        {
            path, sessions, format, page, halfAngle,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(path),
            parsed.GetRequiredValue(sessions),
            parsed.GetValue(format),
            parsed.GetValue(page) is { } file ? new PageWish(file, parsed.GetValue(halfAngle) ?? ScanLine.UsualHalfAngle) : null,
            parsed.InvocationConfiguration.Output,
            parsed.InvocationConfiguration.Error));
        return command;
    }

    private static int Run(string? path, string root, OutputFormat format, PageWish? page, TextWriter output, TextWriter complaints)
    {
        if (format == OutputFormat.Csv)
        {
            complaints.WriteLine("--format csv: a review is no table; choose table or json");
            return CommandRoot.WrongInput;
        }

        if (!Find(path, root).Try(out string? found, out ParseError? error) || !Recording.ReadAll(found).Try(out Recording? recording, out error))
        {
            complaints.WriteLine(error.ToString());
            return CommandRoot.WrongInput;
        }

        foreach (JournalNote note in recording.Notes)
        {
            complaints.WriteLine($"{found}: {note}");
        }

        if (ReviewRecorder.LogOf(recording.Envelopes) is not { } log || Reviewer.Make(log) is not { } review)
        {
            complaints.WriteLine($"{found}: the session does not reach into its pass, so there is nothing to review");
            return CommandRoot.Failed;
        }

        if (page is { } wish && WholeFile.Write(wish.File, ReviewPage.Of(review, log.Settings, log.BeamWidth, wish.HalfAngle), "the page", "--page") is { } trouble)
        {
            complaints.WriteLine(trouble.ToString());
            return CommandRoot.Failed;
        }

        if (format == OutputFormat.Json)
        {
            output.Write(ReviewJson.Of(review));
            return 0;
        }

        foreach (string line in ReviewSummary.Lines(review))
        {
            output.WriteLine(line);
        }

        return 0;
    }

    private sealed record PageWish(string File, Angle HalfAngle);

    private static Parsed<string> Find(string? path, string root) => path is null ? LatestSession.Under(root) : path;
}
