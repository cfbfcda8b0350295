using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit rehearse: tonight's pass with a simulated signal, steered by keys.</summary>
public sealed class RehearseCommand
{
    private static readonly TimeSpan Ahead = TimeSpan.FromHours(36);
    private static readonly TimeSpan BeforeAos = TimeSpan.FromSeconds(30);

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string[]> _satellite = new("--satellite") { HelpName = "NAME|NUMBER", Description = "Only this satellite, by name or catalogue number; may be repeated; the favourites of the settings where missing" };
    private readonly Option<Downlink[]> _downlinks = CommonOptions.Downlinks();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();
    private readonly Option<PassWish?> _pass = CommonOptions.Choice<PassWish>("--pass", "Which pass of the next 36 hours: the best (where missing), the lowest that is worth anything, the highest, or the next");
    private readonly Option<double?> _speed = CommonOptions.Number("--speed", "N", "Session seconds for each real second; 1 where missing", 0.1, 5);
    private readonly Option<SunRule?> _sun = CommonOptions.Sun();
    private readonly DishOptions _dish = new();
    private readonly RehearsalOptions _world = new();
    private readonly SessionOptions _session = new();
    private readonly TimeProvider _clock;

    private RehearseCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no start was given.</param>
    public static Command Create(TimeProvider clock)
    {
        RehearseCommand it = new(clock);
        Command command = new(
            "rehearse",
            """
            Fly tonight's pass now, with a simulated signal, wind and dish: the arrows turn it, the voice and the screen are those of a pass, the review too.
            Without elements and station it is the invented satellite of the demo.

            Examples:
              cockpit rehearse
              cockpit rehearse --pass overhead --wind 0.6
              cockpit rehearse --skill novice --speed 5 --seed 7
              cockpit rehearse --sensor
            """)
        {
            it._elements, it._satellite, it._downlinks, it._station, it._at, it._above, it._horizon, it._pass, it._speed, it._sun,
        };
        it._world.AddTo(command);
        it._dish.AddTo(command);
        it._session.AddTo(command);
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        bool plain = parsed.GetValue(_session.Plain);
        if (!plain && CockpitScreen.WhyNoScreen() is { } why)
        {
            await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use --plain for lines and a simulated hand.");
            return CommandRoot.WrongInput;
        }

        if (!_world.SteererOf(parsed, plain).Try(out Steerer steerer, out ParseError? error)
            || !SkylineOf(parsed).Try(out ImmutableArray<HorizonPoint> skyline, out error)
            || !Choose(parsed, skyline, complaints, cancellation).Try(out PlannedPass? pass, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        ulong seed = _world.SeedOf(parsed, _clock.GetUtcNow());
        HandSkill skill = steerer == Steerer.Practised ? HandSkill.Practised : HandSkill.Novice;
        SessionSettings settings = SettingsOf(parsed, pass, skyline, steerer, seed);
        SimulatedPass simulated = new(
            new SatelliteTrack(new Sgp4(pass.Elements), settings.Station), settings, skill, world: _world.WorldOf(parsed), compassErrorDegrees: _world.CompassErrorOf(parsed), sensor: _world.SensorOf(parsed));
        RehearsalTruth truth = new();
        await complaints.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"rehearsal of {pass.Satellite}, {pass.Pass.Aos.Utc:yyyy-MM-dd HH:mm:ss} UTC, up to {pass.Pass.Tca.Look.Elevation.Degrees:0} degrees; --seed {seed} brings the same weather again"));
        await using LiveFeeds none = new();
        SessionRun run = new(
            _session.Read(parsed, settings, pass.Pass.Aos.Utc - BeforeAos) with { EndsWithPass = plain },
            parsed.InvocationConfiguration.Output,
            complaints,
            none,
            snapshot =>
            {
                ImmutableArray<SessionEvent> happened = simulated.Step(snapshot);
                foreach (SessionEvent each in happened)
                {
                    truth.Follow(snapshot, each);
                }

                return happened;
            });
        int code = await run.RunAsync(cancellation);
        if (truth.Words() is { } words)
        {
            await complaints.WriteLineAsync(words);
        }

        return code;
    }

    private SessionSettings SettingsOf(ParseResult parsed, PlannedPass pass, ImmutableArray<HorizonPoint> skyline, Steerer steerer, ulong seed)
    {
        Site station = StationOf(parsed);
        CockpitSettings usual = CockpitSettings.Usual;
        return new SessionSettings
        {
            ProgramVersion = ProgramVersion.Text,
            Kind = SessionKind.Rehearsal,
            StationName = parsed.GetValue(_station) is null ? Demo.Of(seed, "").Settings.StationName : "",
            Station = station,
            SatelliteName = pass.Satellite,
            Elements = pass.Elements,
            DishDiameterMetres = pass.Link.Dish.DiameterMetres,
            Downlink = pass.Link.Carrier,
            Service = pass.Link.Service.Name,
            MagneticDeclination = WorldMagneticModel.At(station, pass.Pass.Aos.Utc).Declination,
            MinimumElevation = parsed.GetValue(_above) ?? usual.MinimumElevation,
            Skyline = skyline,
            CueLead = steerer == Steerer.Practised ? CockpitSettings.PractisedLead : usual.CueLead,
            Sun = parsed.GetValue(_sun) ?? CockpitSettings.UsualSun,
            Speed = parsed.GetValue(_speed) ?? 1.0,
            Seed = seed,
            KeysSteer = steerer == Steerer.Keys,
            Feeds = _world.SensorOf(parsed) is null ? [FeedSettings.Signal] : [FeedSettings.Signal, FeedSettings.Pointing],
        };
    }

    private Parsed<PlannedPass> Choose(ParseResult parsed, ImmutableArray<HorizonPoint> skyline, TextWriter complaints, CancellationToken cancellation)
    {
        if (parsed.GetValue(_elements) is not null && parsed.GetValue(_station) is null)
        {
            return new ParseError("--station", 0, 0, "elements need a place to stand: give a station like 47.8,11.2, or neither for the invented pass of the demo");
        }

        if (!SatellitesOf(parsed, complaints).Try(out ImmutableArray<Sgp4> satellites, out ParseError? error))
        {
            return error;
        }

        bool invented = parsed.GetValue(_elements) is null;
        DateTimeOffset from = parsed.GetValue(_at) ?? (invented ? Demo.Of(0, "").StartUtc : _clock.GetUtcNow());
        PassQuestion question = new(StationOf(parsed), from, from + Ahead, parsed.GetValue(_above) ?? CockpitSettings.Usual.MinimumElevation, skyline.IsEmpty ? null : new HorizonMask(skyline), 0.0, Refraction: false);
        VerdictSettings settings = new() { Site = question.Station, Link = _dish.Read(parsed) };
        if (!PassPlanner.Find(satellites, question, settings, [.. parsed.GetValue(_downlinks) ?? []], null, cancellation).Try(out PassesAhead? ahead, out error))
        {
            return error;
        }

        return RehearsedPass.Of(ahead, parsed.GetValue(_pass) ?? PassWish.Best, from + BeforeAos) is { } pass
            ? pass
            : new ParseError("rehearse", 0, 0, string.Create(CultureInfo.InvariantCulture, $"no pass that is worth anything comes within 36 hours of {from:yyyy-MM-dd'T'HH:mm:ss'Z'}; choose another instant with --at, another satellite, or a lower --above"));
    }

    private Parsed<ImmutableArray<Sgp4>> SatellitesOf(ParseResult parsed, TextWriter complaints) => parsed.GetValue(_elements) is { } path
        ? SatelliteChoice.Read(path, parsed.GetValue(_satellite) ?? [], complaints)
        : ImmutableArray.Create(new Sgp4(Demo.Elements));

    private Parsed<ImmutableArray<HorizonPoint>> SkylineOf(ParseResult parsed) => parsed.GetValue(_horizon) is not { } text
        ? ImmutableArray<HorizonPoint>.Empty
        : HorizonInput.Read(text).Try(out HorizonMask? horizon, out ParseError? error) ? horizon.Points : error;

    private Site StationOf(ParseResult parsed) => parsed.GetValue(_station) ?? Demo.Of(0, "").Settings.Station;
}
