using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Devices.Outlets;
using Cockpit.Devices.Ports;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit simulate signal: a second process that sends what a receiver's program would.</summary>
public sealed class SimulateSignalCommand
{
    private static readonly Angle MadeUpHighest = Angle.FromDegrees(58);

    private readonly Option<string> _listen = new("--listen") { HelpName = "tcp://[HOST]:PORT", Description = "Be connected to, for live --signal tcp://127.0.0.1:PORT" };
    private readonly Option<string> _to = new("--to") { HelpName = "tcp://HOST:PORT|udp://[HOST]:PORT|file:PATH|-", Description = "Send there; - is standard output" };
    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<double?> _speed = CommonOptions.Number("--speed", "N", "Seconds of the pass for each real second; 1 where missing", 0.1, 60);
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<double?> _rate = CommonOptions.Number("--rate", "N", "Lines a second; 10 where missing", 0.1, 1000);
    private readonly Option<double?> _rubbish = CommonOptions.Number("--rubbish", "SHARE", "Share of lines that are rubbish, 0 to 1", 0, 1);
    private readonly Option<Outage?> _stall = CommonOptions.Value("--stall", "EVERY,FOR", "Stand still again and again, like 30s,5s", ReadOutage);
    private readonly Option<Outage?> _away = CommonOptions.Value("--away", "EVERY,FOR", "Die and come back again and again, like 60s,5s", ReadOutage);
    private readonly Option<TimeSpan?> _stopAfter = CommonOptions.Value("--stop-after", "SPAN", "End by itself after this real time, like 90s", SpanText.Read);
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
            it._listen, it._to, it._elements, it._satellite, it._station, it._at, it._carrier, it._dish, it._speed, it._rate,
            it._form, it._motion, it._rubbish, it._stall, it._away, it._seed, it._stamp, it._stopAfter,
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!ReadPlan(parsed, complaints).Try(out (SkyPlan Plan, SessionSettings Settings, DateTimeOffset Start) pass, out ParseError? error)
            || !ReadOutlet(parsed).Try(out IOutlet? outlet, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        await using SignalSender sender = new(outlet, SignalOf(parsed, pass), ReadSettings(parsed), _clock);
        try
        {
            sender.Open();
        }
        catch (PortException failure)
        {
            await complaints.WriteLineAsync(failure.Message);
            return CommandRoot.WrongInput;
        }

        await complaints.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{pass.Settings.SatelliteName} at {outlet.Where}: pass from {pass.Plan.Pass.Aos.Utc:yyyy-MM-dd HH:mm:ss} to {pass.Plan.Pass.Los.Utc:HH:mm:ss} UTC, highest {pass.Plan.Pass.Tca.Look.Elevation.Degrees:0} degrees; Ctrl-C ends it"));
        return await SendAsync(sender, parsed.GetValue(_stopAfter), complaints, cancellation);
    }

    private async Task<int> SendAsync(SignalSender sender, TimeSpan? stopAfter, TextWriter complaints, CancellationToken cancellation)
    {
        using CancellationTokenSource stop = stopAfter is { } span ? new CancellationTokenSource(span, _clock) : new CancellationTokenSource();
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop.Token, cancellation);
        try
        {
            await sender.RunAsync(either.Token);
        }
        catch (OperationCanceledException) when (either.IsCancellationRequested)
        {
            // Ctrl-C or the time is up: the wanted end.
        }
        catch (IOException failure)
        {
            await complaints.WriteLineAsync("nothing takes the lines any more: " + failure.Message);
            return CommandRoot.Failed;
        }

        await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{sender.Sent} lines sent"));
        return 0;
    }

    private Func<TimeSpan, SignalSample?> SignalOf(ParseResult parsed, (SkyPlan Plan, SessionSettings Settings, DateTimeOffset Start) pass)
    {
        PlannedSignal signal = new(pass.Plan, pass.Settings, parsed.GetValue(_motion) ?? DishMotion.Plan, (ulong)(parsed.GetValue(_seed) ?? 1));
        double speed = parsed.GetValue(_speed) ?? 1;
        bool stamp = parsed.GetValue(_stamp);
        return elapsed =>
        {
            SignalSample sample = signal.At(pass.Start + (elapsed * speed));
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

    private Parsed<IOutlet> ReadOutlet(ParseResult parsed) => (parsed.GetValue(_listen), parsed.GetValue(_to)) switch
    {
        ({ } listen, null) => OutletAddresses.Listening(listen, "--listen"),
        (null, { } to) => OutletAddresses.Sending(to, "--to"),
        _ => new ParseError("simulate signal", 0, 0, "say where the lines go: either --listen tcp://:PORT or --to ADDRESS"),
    };

    private Parsed<(SkyPlan Plan, SessionSettings Settings, DateTimeOffset Start)> ReadPlan(ParseResult parsed, TextWriter complaints)
    {
        DateTimeOffset start = parsed.GetValue(_at) ?? _clock.GetUtcNow();
        SessionSettings settings = new()
        {
            ProgramVersion = ProgramVersion.Text,
            Kind = SessionKind.Simulated,
            StationName = "",
            Station = parsed.GetValue(_station) ?? default,
            SatelliteName = "a made-up satellite",
            DishDiameterMetres = parsed.GetValue(_dish) ?? CockpitSettings.Usual.Link.Dish.DiameterMetres,
            Downlink = parsed.GetValue(_carrier) ?? CockpitSettings.Usual.Link.Carrier,
        };
        if (parsed.GetValue(_elements) is not { } path)
        {
            CircularPass madeUp = new(start, MadeUpHighest);
            return (SkyPlan.Of(madeUp, start, madeUp.Pass, settings), settings, start);
        }

        if (parsed.GetValue(_station) is null)
        {
            return new ParseError("--station", 0, 0, "the pass needs a place: give --station LAT,LON");
        }

        if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
            || !ElementsInput.Pick(sets, path, parsed.GetValue(_satellite)).Try(out ElementSet? elements, out error))
        {
            return error;
        }

        settings = settings with { SatelliteName = elements.Name.Trim(), Elements = elements };
        return Sgp4.Validate(elements) is { } refusal
            ? new ParseError(path, 0, 0, refusal)
            : SkyPlan.For(settings, start) is { } plan
                ? (plan, settings, start)
                : new ParseError("--station", 0, 0, string.Create(CultureInfo.InvariantCulture, $"{settings.SatelliteName} does not rise here within {SkyPlan.HorizonDays:0} days of {start:yyyy-MM-dd'T'HH:mm:ss'Z'}"));
    }

    private static Parsed<Outage> ReadOutage(string text, string source)
    {
        string[] parts = text.Split(',');
        return parts.Length == 2 && SpanText.Read(parts[0], source).Try(out TimeSpan every, out _) && SpanText.Read(parts[1], source).Try(out TimeSpan span, out _) && span < every
            ? new Outage(every, span)
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} does not say how often and how long; write it like 60s,5s, the second shorter");
    }
}
