using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Exports;
using Cockpit.Reports;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit export: a session as a table for other programs, or as annotations of a recording.</summary>
public static class ExportCommand
{
    private const string DescriptionEnding = ".sigmf-meta";

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> path = new("session") { HelpName = "SESSION", Description = "Folder of the session" };
        Option<string> file = new("--out") { HelpName = "FILE", Description = "Where to; its ending says the form: .csv, .json, .parquet or .sigmf-meta", Required = true };
        Option<string> format = new("--format") { HelpName = "csv|json|parquet|sigmf", Description = "The form, where the ending does not say it" };
        format.AcceptOnlyFromAmong("csv", "json", "parquet", "sigmf");
        Option<bool> lines = new("--lost-lines") { Description = "Not the session ten times a second, but its lost lines: number, UTC, cause" };
        Option<string> recording = new("--recording") { HelpName = "FILE.sigmf-meta", Description = "For sigmf: the description of the recording that gaps and marks are noted in" };
        Command command = new(
            "export",
            """
            Write a session as a table for other programs: what was known ten times a second, units and meanings with it; or its lost lines one by one.
            Or note its gaps and marks in the description of a SigMF recording; everything else in that stays as it is.

            Examples:
              cockpit export sessions/2026-11-25T172440Z-petrel-2 --out pass.parquet
              cockpit export sessions/2026-11-25T172440Z-petrel-2 --lost-lines --out lost.csv
              cockpit export sessions/2026-11-25T172440Z-petrel-2 --recording pass.sigmf-meta --out pass.sigmf-meta
            """) { path, file, format, lines, recording };
        command.SetAction(async (parsed, _) =>
        {
            string to = parsed.GetRequiredValue(file);
            string form = parsed.GetValue(format) ?? Path.GetExtension(to).TrimStart('.').ToLowerInvariant();
            var wish = new Wish(parsed.GetRequiredValue(path), to, string.Equals(form, "sigmf-meta", StringComparison.Ordinal) ? "sigmf" : form, parsed.GetValue(lines), parsed.GetValue(recording));
            ParseError? error = await WriteAsync(wish, parsed.InvocationConfiguration.Error);
            if (error is not null)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync(error.ToString());
                return CommandRoot.WrongInput;
            }

            await parsed.InvocationConfiguration.Output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{to}  {new FileInfo(to).Length} bytes"));
            return 0;
        });
        return command;
    }

    private static async Task<ParseError?> WriteAsync(Wish wish, TextWriter complaints)
    {
        if (wish.Form is not ("csv" or "json" or "parquet" or "sigmf"))
        {
            return new ParseError("--out", 0, 0, $"{Quoted.Of(wish.File)} does not end in .csv, .json, .parquet or {DescriptionEnding}; say the form with --format");
        }

        if (!Recording.ReadAll(wish.Session).Try(out Recording? recording, out ParseError? error))
        {
            return error;
        }

        foreach (JournalNote note in recording.Notes)
        {
            await complaints.WriteLineAsync($"{wish.Session}: {note}");
        }

        if (recording.Envelopes[^1].Elapsed - recording.Envelopes[0].Elapsed > GridTable.Longest)
        {
            return new ParseError(wish.Session, 0, 0, "the session is longer than two days; that is no pass");
        }

        bool merge = string.Equals(wish.Form, "sigmf", StringComparison.Ordinal);
        if (ReviewRecorder.LogOf(recording.Envelopes) is { } log && Reviewer.Make(log) is { } review)
        {
            return merge ? await MergeAsync(wish, log, review, recording) : await WriteAsync(wish, recording, review);
        }

        return merge || wish.LostLines
            ? new ParseError(wish.Session, 0, 0, "the session does not reach into its pass, so there are no lines and no gaps")
            : await WriteAsync(wish, recording, null);
    }

    private static Task<ParseError?> WriteAsync(Wish wish, Recording recording, SessionReview? review)
    {
        ImmutableArray<KeyValuePair<string, string>> about = About(wish, recording);
        ExportTable table = wish.LostLines && review is not null ? new LostLines(review).Table(about) : GridTable.Of(recording.Envelopes, review, about);
        return WholeFile.WriteAsync(
            wish.File,
            stream => wish.Form switch
            {
                "csv" => TextTables.WriteCsvAsync(table, stream),
                "json" => TextTables.WriteJsonAsync(table, stream),
                _ => ParquetTable.WriteAsync(table, stream),
            },
            "the table",
            "--out");
    }

    private static async Task<ParseError?> MergeAsync(Wish wish, ReviewLog log, SessionReview review, Recording recording)
    {
        if (wish.Recording is not { } description)
        {
            return new ParseError("--recording", 0, 0, $"it is missing; give the {DescriptionEnding} of the recording in which gaps and marks are to be noted");
        }

        Envelope last = recording.Envelopes[0];
        DateTimeOffset UtcOf(double seconds)
        {
            last = recording.Envelopes.LastOrDefault(e => e.Elapsed.TotalSeconds <= seconds) ?? last;
            return last.Utc + (TimeSpan.FromSeconds(seconds) - last.Elapsed);
        }

        if (!InputFiles.ReadLines(description, "--recording").Try(out string[]? lines, out ParseError? error)
            || !SigmfMerge.Of(string.Join('\n', lines), description, SigmfMerge.Marks(log, review, UtcOf)).Try(out byte[]? merged, out error))
        {
            return error;
        }

        return await WholeFile.WriteAsync(wish.File, stream => stream.WriteAsync(merged).AsTask(), "the description", "--out");
    }

    private static ImmutableArray<KeyValuePair<string, string>> About(Wish wish, Recording recording)
    {
        SessionSettings? settings = (recording.Envelopes[0].Event as SessionOpened)?.Settings;
        return
        [
            new("program", "cockpit " + ProgramVersion.Text),
            new("table", wish.LostLines ? "lost lines" : "session, ten rows a second"),
            new("session", TextFilter.Clean(Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(wish.Session))))),
            new("satellite", TextFilter.Clean(settings?.SatelliteName ?? "")),
            new("kind", settings?.Kind.ToString().ToLowerInvariant() ?? ""),
        ];
    }

    private sealed record Wish(string Session, string File, string Form, bool LostLines, string? Recording);
}
