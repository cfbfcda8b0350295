using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Signal;
using Cockpit.Devices.Clocks;
using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit simulate session: writes a journal without screen and sound until it is ended, to try what a hard end does to it.</summary>
public static class SimulateSessionCommand
{
    private const int UsualRate = 20;

    /// <summary>The command; hidden, because nobody needs it in a pass.</summary>
    public static Command Create(TimeProvider clock)
    {
        Option<string> sessions = new("--sessions") { HelpName = "DIR", Description = "Folder that holds the sessions", DefaultValueFactory = _ => CockpitSettings.Usual.SessionsFolder };
        Option<long?> rate = CommonOptions.Whole("--rate", "N", $"Measurements a second; {UsualRate} where missing", 1, 1000);
        var flown = new FlownSessions();
        Command command = new(
            "session",
            """
            Write a journal until it is ended; prints each event's number and time once it is published. With --flown: whole passes at once, by a simulated hand.

            Examples:
              cockpit simulate session --sessions DIR
              cockpit simulate session --sessions DIR --flown 7 --faults late,wrong-way,fade
              cockpit simulate session --sessions DIR --flown 1 --count 1000 --flights 5 --pack
            """) { sessions, rate };
        flown.AddTo(command);
        command.Hidden = true;
        command.SetAction((parsed, cancellation) => flown.Read(parsed) is { } wish ? Task.FromResult(wish.Write(
            parsed.GetRequiredValue(sessions), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancellation)) : RunAsync(
            parsed.GetRequiredValue(sessions), (int)(parsed.GetValue(rate) ?? UsualRate), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, clock, cancellation));
        return command;
    }

    private static async Task<int> RunAsync(string root, int rate, TextWriter output, TextWriter complaints, TimeProvider clock, CancellationToken cancellation)
    {
        var demo = Demo.Of(1, ProgramVersion.Text);
        DateTimeOffset start = demo.StartUtc;
        using SessionBus bus = new(new SessionClock(clock), start);
        if (!SessionFolder.Create(root, start, demo.Settings.SatelliteName).Try(out SessionFolder? folder, out ParseError? error)
            || !folder.StartJournal(bus, clock, ProgramVersion.Text).Try(out JournalWriter? journal, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        await output.WriteLineAsync(folder.Path);
        bus.Subscribe("journal", journal.Append);
        bus.Subscribe("print", envelope => Print(output, envelope));
        bus.Publish(Sources.Program, new SessionOpened(demo.Settings with { Kind = SessionKind.Simulated }));
        await using (TickSource ticks = new(bus, clock))
        {
            await PublishAsync(bus, rate, clock, cancellation);
        }

        bus.Publish(Sources.Program, new SessionClosed("ended"));
        await journal.DisposeAsync();
        if (journal.Outcome.IsWhole)
        {
            return 0;
        }

        await complaints.WriteLineAsync(journal.Outcome.Sentence(folder.Path));
        return CommandRoot.Failed;
    }

    private static async Task PublishAsync(SessionBus bus, int rate, TimeProvider clock, CancellationToken cancellation)
    {
        const int measurementsBetweenKeys = 50;
        using PeriodicTimer timer = new(TimeSpan.FromSeconds(1.0 / rate), clock);
        try
        {
            for (int number = 1; await timer.WaitForNextTickAsync(cancellation); number++)
            {
                bus.Publish(Sources.Signal, new SignalMeasured(Sources.Signal, new SignalSample { SnrDb = number % 20 }));
                if (number % measurementsBetweenKeys == 0)
                {
                    bus.Publish(Sources.Keys, new OperatorPressed(OperatorKey.Peaked));
                }
            }
        }
        catch (OperationCanceledException)
        {
            // The wanted end.
        }
    }

    private static void Print(TextWriter output, Envelope envelope)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{envelope.Sequence} {envelope.Elapsed.Ticks}"));
        output.Flush();
    }
}
