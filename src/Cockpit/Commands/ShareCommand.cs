using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Sharing;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit share: a session as one file to give away, without names and place.</summary>
public static class ShareCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> path = new("session") { HelpName = "SESSION", Description = "Folder of the session" };
        Argument<string> file = new("file") { HelpName = "FILE", Description = $"Where to; packed where it ends in {SessionFolder.PackedEnding}" };
        Option<bool> exact = new("--exact") { Description = "Keep place, time, satellite and picture; only names and texts go" };
        Command command = new(
            "share",
            """
            Write a session as one file to give away: names, addresses and sentences are taken out, and the place too. It replays and is reviewed like any other.

            Directions and levels stay; elements, satellite, date, picture and sun do not, because each of them tells the place together with the directions.
            Who knows, or guesses, satellite and time can work the place out from the directions, to a few metres: do not tell them beside the file.

            Examples:
              cockpit share sessions/2026-11-25T172440Z-petrel-2 pass.jsonl.br
              cockpit review pass.jsonl.br
            """) { path, file, exact };
        command.SetAction(parsed =>
        {
            if (Write(parsed.GetRequiredValue(path), parsed.GetRequiredValue(file), parsed.GetValue(exact), parsed.InvocationConfiguration.Error).Try(out string? told, out ParseError? error))
            {
                parsed.InvocationConfiguration.Output.WriteLine(told);
                return 0;
            }

            parsed.InvocationConfiguration.Error.WriteLine(error.ToString());
            return CommandRoot.WrongInput;
        });
        return command;
    }

    private static Parsed<string> Write(string path, string file, bool exact, TextWriter complaints)
    {
        if (!Recording.ReadAll(path).Try(out Recording? recording, out ParseError? error))
        {
            return error;
        }

        foreach (JournalNote note in recording.Notes)
        {
            complaints.WriteLine($"{path}: {note}");
        }

        if (recording.Envelopes[0].Event is not SessionOpened)
        {
            return new ParseError(path, 0, 0, "the event that opens the session is lost, so it is not known what would give the place away");
        }

        if (Path.Exists(file))
        {
            return new ParseError(file, 0, 0, "something of that name is there already; choose another");
        }

        ImmutableArray<Envelope> shared = SharedSession.Of(recording.Envelopes, exact);
        string plain = SessionFolder.IsPacked(file) ? file[..^SessionFolder.PackedEnding.Length] : file;
        if (!string.Equals(plain, file, StringComparison.Ordinal) && Path.Exists(plain))
        {
            return new ParseError(plain, 0, 0, "something of that name is there already; choose another");
        }

        try
        {
            JournalText.Write(plain, new JournalHeader(JournalHeader.CurrentFormat, ProgramVersion.Text, shared[0].Utc), shared);
        }
        catch (Exception failure) when (InputFiles.IsTrouble(failure))
        {
            return new ParseError(file, 0, 0, $"the shared session cannot be written ({FileWords.Of(failure)})");
        }

        if (SessionFolder.IsPacked(file) && !SessionPacker.Pack(plain, replace: true).Try(out _, out error))
        {
            File.Delete(plain);
            return error;
        }

        string kept = exact ? "place, time and satellite are kept, names are not" : "directions and levels are kept; place, date, satellite, picture and names are not";
        return string.Create(CultureInfo.InvariantCulture, $"{file}  {new FileInfo(file).Length} bytes, {shared.Length} events: {kept}");
    }
}
