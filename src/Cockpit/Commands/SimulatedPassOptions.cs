using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>A pass that a simulated sender plays.</summary>
/// <param name="Plan">The pass and its holds.</param>
/// <param name="Settings">Dish and satellite.</param>
/// <param name="Start">UTC at which it begins to send.</param>
/// <param name="Speed">Seconds of the pass for each real second.</param>
internal sealed record PassToSend(SkyPlan Plan, SessionSettings Settings, DateTimeOffset Start, double Speed)
{
    /// <summary>The instant of the pass after a real time.</summary>
    public DateTimeOffset At(TimeSpan elapsed) => Start + (elapsed * Speed);

    /// <summary>What is sent, where, and until when.</summary>
    public string Words(string where) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Settings.SatelliteName} at {where}: pass from {Plan.Pass.Aos.Utc:yyyy-MM-dd HH:mm:ss} to {Plan.Pass.Los.Utc:HH:mm:ss} UTC, highest {Plan.Pass.Tca.Look.Elevation.Degrees:0} degrees; Ctrl-C ends it");
}

/// <summary>The options that say which pass is played: of --elements over --station, else a made-up one that rises now.</summary>
internal sealed class SimulatedPassOptions
{
    private static readonly Angle MadeUpHighest = Angle.FromDegrees(58);

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<double?> _speed = CommonOptions.Number("--speed", "N", "Seconds of the pass for each real second; 1 where missing", 0.1, 60);

    /// <summary>Gives them to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _elements, _satellite, _station, _at, _carrier, _dish, _speed })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The pass.</summary>
    /// <param name="parsed">The words.</param>
    /// <param name="clock">Gives "now" where no instant was given.</param>
    /// <param name="complaints">Where mistakes beside good element sets are told.</param>
    public Parsed<PassToSend> Read(ParseResult parsed, TimeProvider clock, TextWriter complaints)
    {
        DateTimeOffset start = parsed.GetValue(_at) ?? clock.GetUtcNow();
        double speed = parsed.GetValue(_speed) ?? 1.0;
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
            return new PassToSend(SkyPlan.Of(madeUp, start, madeUp.Pass, settings), settings, start, speed);
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
                ? new PassToSend(plan, settings, start, speed)
                : new ParseError("--station", 0, 0, string.Create(CultureInfo.InvariantCulture, $"{settings.SatelliteName} does not rise here within {SkyPlan.HorizonDays:0} days of {start:yyyy-MM-dd'T'HH:mm:ss'Z'}"));
    }
}
