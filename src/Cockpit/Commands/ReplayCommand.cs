using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit replay: a session of the past on the same screen, with the same sounds.</summary>
public static class ReplayCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        var path = new Argument<string?>("session") { HelpName = "SESSION", Description = "Folder of the session; the latest where missing", Arity = ArgumentArity.ZeroOrOne };
        SessionOptions options = new();
        Option<double?> speed = CommonOptions.Number("--speed", "N", "Rate at the start; 1 where missing", Player.SlowestRate, Player.FastestRate);
        Option<ReplayMoments?> text = CommonOptions.Named<ReplayMoments>(
            "--text", "MOMENT,...", $"Print what the screen showed, and leave: {ReplayMoments.Grammar}", ReplayMoments.Read);
        Option<ScreenSize?> size = CommonOptions.Value<ScreenSize>("--size", "COLUMNSxROWS", "With --text: how large the screen is; 80x24 where missing", ScreenSize.Read);
        Command command = new(
            "replay",
            """
            See and hear a session again: pause, faster, slower, jumps to marks, nudges, gaps, alarms.

            Examples:
              cockpit replay
              cockpit replay sessions/sample-petrel-2 --speed 4
              cockpit replay --text 00:30,gaps --size 120x40
            """)
        {
            path, options.Sessions, options.Sound, options.Voice, options.Theme, options.Drawing, speed, text, size,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!Find(parsed.GetValue(path), parsed.GetRequiredValue(options.Sessions)).Try(out string? found, out ParseError? error)
                || !Recording.ReadAll(found).Try(out Recording? recording, out error))
            {
                await complaints.WriteLineAsync(error.ToString());
                return CommandRoot.WrongInput;
            }

            ReplayMoments? moments = parsed.GetValue(text);
            if (moments is null && CockpitScreen.WhyNoScreen() is { } why)
            {
                await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use --text for what it showed.");
                return CommandRoot.WrongInput;
            }

            foreach (JournalNote note in recording.Notes)
            {
                await complaints.WriteLineAsync(note.ToString());
            }

            if (moments is not null)
            {
                return Print(recording, moments, parsed.GetValue(size) ?? ScreenSize.Usual, SessionOptions.DrawingOf(parsed, options.Drawing), parsed.InvocationConfiguration.Output, complaints);
            }

            ScreenOptions screen = new()
            {
                Theme = parsed.GetRequiredValue(options.Theme),
                Drawing = SessionOptions.DrawingOf(parsed, options.Drawing),
                Replay = true,
                Complaints = complaints,
                TerminalIsGone = StandardInput.TerminalIsGone,
            };
            SoundChoice sound = parsed.GetValue(options.Sound) ?? CockpitSettings.Usual.Sound;
            return await new ReplaySession(recording, screen, sound, SessionOptions.SpeechOf(parsed, options.Voice), parsed.GetValue(speed) ?? 1.0).RunAsync(cancellation);
        });
        return command;
    }

    private static Parsed<string> Find(string? path, string root) => path is null ? LatestSession.Under(root) : path;

    private static int Print(Recording recording, ReplayMoments moments, ScreenSize size, Drawing drawing, TextWriter output, TextWriter complaints)
    {
        ImmutableArray<Milestone>? stops = moments.Kinds.IsEmpty ? null : MilestoneFinder.Of(recording.Envelopes, CancellationToken.None).Milestones;
        List<(TimeSpan At, string Words)> wanted =
        [
            .. moments.Elapsed.Select(at => (at, "")),
            .. moments.Utc.Select(utc => (ElapsedOf(recording.Envelopes, utc), "")),
            .. (stops ?? []).Where(stop => moments.Kinds.Contains(stop.Kind)).Select(stop => (stop.At, stop.Text)),
        ];
        if (wanted.Count == 0)
        {
            complaints.WriteLine("The session has none of the moments that --text names.");
            return CommandRoot.Failed;
        }

        new ReplayText(output, new PagePrinter(size.Columns, size.Rows, drawing)).Print(recording.Envelopes, wanted, stops);
        return 0;
    }

    private static TimeSpan ElapsedOf(ImmutableArray<Envelope> envelopes, DateTimeOffset utc) =>
        envelopes.LastOrDefault(envelope => envelope.Utc <= utc)?.Elapsed ?? TimeSpan.Zero;
}
