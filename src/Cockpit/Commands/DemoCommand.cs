using System.CommandLine;
using Cockpit.Core.Magnetic;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>cockpit alone: a simulated pass of an invented satellite, already under way.</summary>
public static class DemoCommand
{
    private const ulong Seed = 7;

    /// <summary>Makes the demo what the program does without a command.</summary>
    public static void AddTo(RootCommand root)
    {
        ArgumentNullException.ThrowIfNull(root);
        SessionOptions session = new();
        session.AddTo(root);
        root.SetAction((parsed, cancellation) => RunAsync(session, parsed, cancellation));
    }

    private static async Task<int> RunAsync(SessionOptions session, ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        bool plain = parsed.GetValue(session.Plain);
        if (!plain && CockpitScreen.WhyNoScreen() is { } why)
        {
            await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use --plain for lines.");
            return CommandRoot.WrongInput;
        }

        Demo demo = Demo.Of(Seed, ProgramVersion.Text);
        SimulatedPass pass = demo.Begin();
        SessionSettings settings = demo.Settings with
        {
            MagneticDeclination = WorldMagneticModel.At(demo.Settings.Station, demo.StartUtc).Declination,
        };
        SessionPlan plan = session.Read(parsed, settings, demo.StartUtc);
        await using LiveFeeds none = new();
        SessionRun run = new(plan, parsed.InvocationConfiguration.Output, complaints, none, snapshot => pass.Step(snapshot));
        return await run.RunAsync(cancellation);
    }
}
