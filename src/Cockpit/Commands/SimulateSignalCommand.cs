using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Signal;
using Cockpit.Devices.Outlets;
using Cockpit.Session.Rehearsal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit simulate signal: a second process that sends what a receiver's program would.</summary>
public sealed class SimulateSignalCommand
{
    private readonly SimulatedPassOptions _pass = new();
    private readonly OutletOptions _outlet = new("simulate signal");
    private readonly Option<double?> _rate = CommonOptions.Number("--rate", "N", "Lines a second; 10 where missing", 0.1, 1000);
    private readonly Option<double?> _rubbish = CommonOptions.Number("--rubbish", "SHARE", "Share of lines that are rubbish, 0 to 1", 0, 1);
    private readonly Option<Outage?> _stall = CommonOptions.Value("--stall", "EVERY,FOR", "Stand still again and again, like 30s,5s", ReadOutage);
    private readonly Option<Outage?> _away = CommonOptions.Value("--away", "EVERY,FOR", "Die and come back again and again, like 60s,5s", ReadOutage);
    private readonly Option<LineForm?> _form = CommonOptions.Choice<LineForm>("--form", "How a line is written; pairs where missing");
    private readonly Option<DishMotion?> _motion = CommonOptions.Choice<DishMotion>("--motion", "How the dish moves: from hold to hold, or not at all; plan where missing");
    private readonly Option<long?> _seed = CommonOptions.Whole("--seed", "N", "Seed of noise and rubbish; 1 where missing", 0, long.MaxValue);
    private readonly Option<bool> _stamp = new("--stamp") { Description = "Put the time of this computer into each line" };
    private readonly TimeProvider _clock;

    private SimulateSignalCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    public static Command Create(TimeProvider clock)
    {
        SimulateSignalCommand it = new(clock);
        const string examples = "\n\nExamples:\n  cockpit simulate signal --listen tcp://:5010\n  cockpit simulate signal --to udp://:5010 --rubbish 0.05 --away 60s,5s"
            + "\n  cockpit simulate signal --listen tcp://:5010 --elements sats.tle --satellite \"PETREL 2\" --station 51.5,-0.1 --at 2026-11-25T10:15:00Z";
        Command command = new("signal", "Send the level of a pass, line by line: of --elements over --station, else of a made-up pass that rises now" + examples)
        {
            it._rate, it._form, it._motion, it._rubbish, it._stall, it._away, it._seed, it._stamp,
        };
        it._outlet.AddTo(command);
        it._pass.AddTo(command);
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!_pass.Read(parsed, _clock, complaints).Try(out PassToSend? pass, out ParseError? error)
            || !_outlet.Read(parsed).Try(out IOutlet? outlet, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        SenderSettings settings = ReadSettings(parsed);
        Func<TimeSpan, SignalSample> signal = SignalOf(parsed, pass);
        LineScript script = new(settings);
        await using LineSender sender = new(outlet, elapsed => script.Next(signal(elapsed)), settings, _clock);
        return await _outlet.SendAsync(sender, pass.Words(outlet.Where), parsed, _clock, cancellation);
    }

    private Func<TimeSpan, SignalSample> SignalOf(ParseResult parsed, PassToSend pass)
    {
        PlannedSignal signal = new(pass.Plan, pass.Settings, parsed.GetValue(_motion) ?? DishMotion.Plan, (ulong)(parsed.GetValue(_seed) ?? 1));
        bool stamp = parsed.GetValue(_stamp);
        return elapsed =>
        {
            SignalSample sample = signal.At(pass.At(elapsed));
            return stamp ? sample with { Utc = _clock.GetUtcNow() } : sample;
        };
    }

    private SenderSettings ReadSettings(ParseResult parsed) => new()
    {
        LinesPerSecond = parsed.GetValue(_rate) ?? 10,
        Form = parsed.GetValue(_form) ?? LineForm.Pairs,
        RubbishShare = parsed.GetValue(_rubbish) ?? 0,
        Stall = parsed.GetValue(_stall) ?? default,
        Away = parsed.GetValue(_away) ?? default,
        Seed = (ulong)(parsed.GetValue(_seed) ?? 1),
    };

    internal static Parsed<Outage> ReadOutage(string text, string source)
    {
        string[] parts = text.Split(',');
        return parts.Length == 2 && SpanText.Read(parts[0], source).Try(out TimeSpan every, out _) && SpanText.Read(parts[1], source).Try(out TimeSpan span, out _) && span < every
            ? new Outage(every, span)
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} does not say how often and how long; write it like 60s,5s, the second shorter");
    }
}
