using System.CommandLine;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
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
        Argument<string> path = new("session") { HelpName = "SESSION", Description = "Folder of the session" };
        SessionOptions options = new();
        Option<double?> speed = CommonOptions.Number("--speed", "N", "Rate at the start; 1 where missing", Player.SlowestRate, Player.FastestRate);
        Command command = new("replay", "See and hear a session again: pause, faster, slower, jumps") { path, options.Sound, options.Voice, options.Theme, speed };
        command.SetAction(async (parsed, cancellation) =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!Recording.ReadAll(parsed.GetRequiredValue(path)).Try(out Recording? recording, out ParseError? error))
            {
                await complaints.WriteLineAsync(error.ToString());
                return CommandRoot.WrongInput;
            }

            if (CockpitScreen.WhyNoScreen() is { } why)
            {
                await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use cockpit check session for a report.");
                return CommandRoot.WrongInput;
            }

            foreach (JournalNote note in recording.Notes)
            {
                await complaints.WriteLineAsync(note.ToString());
            }

            ScreenOptions screen = new() { Theme = parsed.GetRequiredValue(options.Theme), Replay = true, Complaints = complaints };
            SoundChoice sound = parsed.GetValue(options.Sound) ?? CockpitSettings.Usual.Sound;
            return await new ReplaySession(recording, screen, sound, SessionOptions.SpeechOf(parsed, options.Voice), parsed.GetValue(speed) ?? 1.0).RunAsync(cancellation);
        });
        return command;
    }
}
