using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Reports.Pictures;
using Cockpit.Session.Review;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit review: what a pass lost, why, and what to do better.</summary>
public static class ReviewCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        var paths = new Argument<string[]>("session")
        {
            HelpName = "SESSION", Description = "Folder of the session, the latest where missing; two stand side by side", Arity = new ArgumentArity(0, 2),
        };
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
              cockpit review sessions/2026-11-25T172440Z-petrel-2 friend/2026-11-25T172451Z-petrel-2 --page both.html
            """)
        {
            paths, sessions, format, page, pictures, halfAngle,
        };
        command.SetAction(parsed =>
        {
            string[] named = parsed.GetValue(paths) ?? [];
            OutputFormat form = parsed.GetValue(format);
            var wish = new PictureWish(parsed.GetValue(page), parsed.GetValue(pictures), parsed.GetValue(halfAngle) ?? ScanLine.UsualHalfAngle);
            TextWriter output = parsed.InvocationConfiguration.Output;
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (Mistake(named.Length, form, wish) is { } mistake)
            {
                complaints.WriteLine(mistake);
                return CommandRoot.WrongInput;
            }

            return named.Length == 2 ? Two(named[0], named[1], form, wish, output, complaints) : One(named.FirstOrDefault(), parsed.GetRequiredValue(sessions), form, wish, output, complaints);
        });
        return command;
    }

    private static string? Mistake(int sessions, OutputFormat format, PictureWish wish) =>
        format == OutputFormat.Csv ? "--format csv: a review is no table; choose table or json"
        : sessions == 2 && wish.Folder is not null ? "--pictures: the pictures of two sessions stand on one page; choose --page"
        : null;

    private static int One(string? path, string root, OutputFormat format, PictureWish wish, TextWriter output, TextWriter complaints)
    {
        Parsed<string> folder = path is null ? LatestSession.Under(root) : path;
        if (!folder.Try(out string? found, out ParseError? error))
        {
            complaints.WriteLine(error.ToString());
            return CommandRoot.WrongInput;
        }

        (ReviewedSession? session, int code) = Read(found, complaints);
        if (session is null)
        {
            return code;
        }

        if (Pictures(session, wish) is { } trouble)
        {
            complaints.WriteLine(trouble.ToString());
            return CommandRoot.Failed;
        }

        return format == OutputFormat.Json ? Print(output, ReviewJson.Of(session.Review)) : Print(output, ReviewSummary.Lines(session.Review));
    }

    private static int Two(string first, string second, OutputFormat format, PictureWish wish, TextWriter output, TextWriter complaints)
    {
        (ReviewedSession? a, int code) = Read(first, complaints);
        (ReviewedSession? b, int other) = a is null ? (null, code) : Read(second, complaints);
        if (a is null || b is null)
        {
            return other;
        }

        var both = new Comparison(a, b);
        if (wish.Page is { } page && WholeFile.Write(page, ComparisonPage.Of(both, wish.HalfAngle), "the page", "--page") is { } trouble)
        {
            complaints.WriteLine(trouble.ToString());
            return CommandRoot.Failed;
        }

        return format == OutputFormat.Json ? Print(output, ComparisonJson.Of(both)) : Print(output, ComparisonSummary.Lines(both));
    }

    private static (ReviewedSession? Session, int Code) Read(string path, TextWriter complaints)
    {
        if (!KeptReview.Of(path).Try(out KeptReview? kept, out ParseError? error))
        {
            complaints.WriteLine(error.ToString());
            return (null, CommandRoot.WrongInput);
        }

        foreach (JournalNote note in kept.Notes)
        {
            complaints.WriteLine($"{path}: {note}");
        }

        if (kept.Log is not { } log || Reviewer.Make(log) is not { } review)
        {
            complaints.WriteLine($"{path}: the session does not reach into its pass, so there is nothing to review");
            return (null, CommandRoot.Failed);
        }

        return (new ReviewedSession(Path.GetFileName(Path.TrimEndingDirectorySeparator(path)), log, review), 0);
    }

    private static ParseError? Pictures(ReviewedSession session, PictureWish wish)
    {
        (SessionReview review, ReviewLog log) = (session.Review, session.Log);
        return (wish.Page is { } page ? WholeFile.Write(page, ReviewPage.Of(review, log.Settings, log.BeamWidth, wish.HalfAngle), "the page", "--page") : null)
            ?? (wish.Folder is { } folder ? ReviewPictures.Write(folder, review, log.Settings, log.BeamWidth, wish.HalfAngle) : null);
    }

    private static int Print(TextWriter output, string text)
    {
        output.Write(text);
        return 0;
    }

    private static int Print(TextWriter output, IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            output.WriteLine(line);
        }

        return 0;
    }

    private sealed record PictureWish(string? Page, string? Folder, Angle HalfAngle);
}
