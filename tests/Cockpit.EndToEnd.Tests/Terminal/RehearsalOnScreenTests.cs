using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>A rehearsal at the keys, by somebody who sees only the screen.</summary>
public sealed class RehearsalOnScreenTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-rehearse-");

    public void Dispose() => _folder.Delete(recursive: true);

    [TerminalFact]
    public async Task Arrows_turn_the_dish_the_signal_answers_and_Q_leaves_the_terminal_as_it_was()
    {
        await using Operator person = Operator.At(100, 30, "rehearse", "--seed", "7", "--speed", "5", "--compass-error", "0", "--wind", "0", "--sessions", _folder.FullName);
        await person.SeesAsync("REHEARSAL x5");
        await person.SeesAsync("scales");
        await person.SeesAsync("IJKL by 5°");
        string before = Scales(person);
        await person.PressesAsync("Right");
        await person.PressesAsync("Up");
        await person.PressesAsync("\x1b[1;2C"); // xterm: Shift and the arrow to the right
        await person.PressesAsync("i");
        await person.SeesNoMoreAsync(before);

        // Back again, until the satellite is heard; far aside nothing is heard of it.
        await person.PressesAsync("j");
        await person.PressesAsync("k");
        await person.SeesAsync("● locked");
        for (int i = 0; i < 20; i++)
        {
            await person.PressesAsync("l");
        }

        await person.SeesAsync("× no lock for");
        await person.PressesAsync("q");
        await person.SeesAsync("Press Q again");
        await person.PressesAsync("q");
        Assert.Equal(0, await person.SeesTheEndAsync());
        Assert.Contains("\x1b[?1049l", person.Bytes, StringComparison.Ordinal);
        Assert.Contains("the truth, which only a rehearsal knows", person.Bytes, StringComparison.Ordinal);

        Assert.True(Recording.ReadAll(_folder.GetDirectories().Single().FullName).Try(out Recording? recording, out ParseError? error), error?.ToString());
        HeadTurned[] turns = [.. recording.Envelopes.Select(envelope => envelope.Event).OfType<HeadTurned>()];
        Assert.Equal([1.0, 0.0, 5.0, 0.0, -5.0, 0.0, 5.0], turns.Take(7).Select(turn => Math.Round(turn.Pan.Degrees, 6)));
        Assert.Equal([0.0, 1.0, 0.0, 5.0, 0.0, -5.0, 0.0], turns.Take(7).Select(turn => Math.Round(turn.Tilt.Degrees, 6)));
        Assert.Equal(26, turns.Length);
        Assert.Equal(SessionKind.Rehearsal, ((SessionOpened)recording.Envelopes[0].Event).Settings.Kind);
    }

    private static string Scales(Operator person)
    {
        string screen = person.Screen;
        int at = screen.IndexOf("scales ", StringComparison.Ordinal);
        return screen[at..screen.IndexOf('\n', at)].TrimEnd();
    }
}
