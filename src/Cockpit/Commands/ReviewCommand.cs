using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Reports.Pictures;
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
        var pictures = new Option<string>("--pictures") { HelpName = "DIR", Description = "Also write the pictures as PNG files into a folder" };
        Option<Angle?> halfAngle = CommonOptions.Value(
            "--half-angle", "DEG", "With --page or --pictures: the instrument's scan to either side of the vertical, 55.4 where missing", (text, source) => AngleText.Read(text, source, 0.0, 89.9));
        var command = new Command(
            "review",
            """
            Say what a pass lost, why, and what to do better: lines received, every gap with its cause and how sure, the hand, advice.

            Examples:
              cockpit review
              cockpit review sessions/2026-11-25T172440Z-petrel-2
              cockpit review --page pass.html
              cockpit review --pictures pass
              cockpit review --format json
            """)
        {
            path, sessions, format, page, pictures, halfAngle,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(path),
            parsed.GetRequiredValue(sessions),
            parsed.GetValue(format),
            new PictureWish(parsed.GetValue(page), parsed.GetValue(pictures), parsed.GetValue(halfAngle) ?? ScanLine.UsualHalfAngle),
            parsed.InvocationConfiguration.Output,
            parsed.InvocationConfiguration.Error));
        return command;
    }

    private static int Run(string? path, string root, OutputFormat format, PictureWish wish, TextWriter output, TextWriter complaints)
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

        if (Pictures(review, log, wish) is { } trouble)
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

    private static ParseError? Pictures(SessionReview review, ReviewLog log, PictureWish wish) =>
        (wish.Page is { } page ? WholeFile.Write(page, ReviewPage.Of(review, log.Settings, log.BeamWidth, wish.HalfAngle), "the page", "--page") : null)
        ?? (wish.Folder is { } folder ? ReviewPictures.Write(folder, review, log.Settings, log.BeamWidth, wish.HalfAngle) : null);

    private sealed record PictureWish(string? Page, string? Folder, Angle HalfAngle);

    private static Parsed<string> Find(string? path, string root) => path is null ? LatestSession.Under(root) : path;
}
