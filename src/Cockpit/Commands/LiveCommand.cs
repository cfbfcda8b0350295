using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Screen.Views;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit live: one real pass.</summary>
public sealed class LiveCommand
{
    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();
    private readonly Option<Service?> _service = CommonOptions.Service();
    private readonly SessionOptions _session = new();
    private readonly Option<string> _signal = new("--signal") { HelpName = LineAddress.Forms, Description = "Where the level comes from: one record a line, or samples of the receiver (file:PATH of the recording that is being written, or ?format=ci16&rate=3000000 behind the address)" };
    private readonly RecordOption _record = new();
    private readonly Option<TimeServerText?> _clock = CommonOptions.Named("--clock", TimeServerText.Form, "Compare this computer's clock with a time server; C corrects the predictions by what was found", TimeServerText.Read);
    private readonly Option<string> _place = new("--place") { HelpName = PlaceAddress.Forms, Description = "A receiver of navigation satellites (gpsd, or NMEA 0183): compares the station and this computer's clock with it; C corrects the predictions" };
    private readonly Option<string> _tune = new("--tune") { HelpName = "rig://HOST:PORT", Description = "Tune the receiver behind a rig server (Hamlib network protocol) to the Doppler-corrected --frequency" };
    private readonly Option<double?> _speed = CommonOptions.Number("--speed", "N", "Session seconds for each real second, to practise; 1 where missing. Words that find no room are left out whole and counted on the screen, above 2 the ticks too", 0.1, 60);
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<HandChoice?> _hand = CommonOptions.Value(
        "--skill",
        "learnt|novice|practised",
        "Whose hand moves the dish: as your last ten passes tell it (where missing, once they tell enough), else a novice's, or a practised one",
        ChosenHand.Read);

    private readonly Option<SetUpError?> _setUp = CommonOptions.SetUp();

    private readonly Option<string> _mount = new("--mount") { HelpName = "pan-tilt|free", Description = "In which axes the hand moves the dish", DefaultValueFactory = _ => "pan-tilt" };
    private readonly Option<bool> _overTheTop = CommonOptions.OverTheTop();
    private readonly Option<SunRule?> _sun = CommonOptions.Sun();

    private readonly Option<string> _north = new("--north") { HelpName = "true|compass", Description = "Which azimuth stands large while the dish is set up", DefaultValueFactory = _ => "true" };

    private LiveCommand()
    {
        _north.AcceptOnlyFromAmong("true", "compass");
        _hand.Aliases.Add("--hand");
        _hand.CompletionSources.Add("learnt", "novice", "practised");
        _mount.AcceptOnlyFromAmong("pan-tilt", "free");
    }

    /// <summary>The command.</summary>
    public static Command Create()
    {
        LiveCommand it = new();
        Command command = new("live", "Fly the next pass: guidance, sound, journal")
        {
            it._elements, it._satellite, it._station, it._signal, it._tune, it._at, it._record.Option, it._clock, it._place, it._speed, it._dish, it._carrier, it._above, it._horizon, it._service, it._hand, it._setUp, it._mount, it._overTheTop, it._sun, it._north,
        };
        it._elements.Required = true;
        it._station.Required = true;
        it._session.AddTo(command);
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        await using LiveFeeds feeds = new();
        if (!ReadPlan(parsed, complaints).Try(out SessionPlan? plan, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        if (!plan.Plain && CockpitScreen.WhyNoScreen() is { } why)
        {
            await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use --plain for lines.");
            return CommandRoot.WrongInput;
        }

        if ((OpenFeeds(parsed, plan, feeds, complaints) ?? OpenTuner(parsed, feeds) ?? OpenPlace(parsed, feeds)) is { } refusal)
        {
            await complaints.WriteLineAsync(refusal.ToString());
            return CommandRoot.WrongInput;
        }

        plan = plan with { Settings = plan.Settings with { Feeds = feeds.Settings } };
        return await new SessionRun(plan, parsed.InvocationConfiguration.Output, complaints, feeds).RunAsync(cancellation);
    }

    private ParseError? OpenFeeds(ParseResult parsed, SessionPlan plan, LiveFeeds feeds, TextWriter complaints)
    {
        const string option = "--signal";
        if (parsed.GetValue(_signal) is not { } address)
        {
            return null;
        }

        if (SampleAddress.IsOne(address))
        {
            Frequency downlink = parsed.GetValue(_carrier) ?? CockpitSettings.Usual.Link.Carrier;
            return SampleAddress.Read(address, option).Try(out SampleAddress? samples, out ParseError? mistake)
                ? _record.Read(parsed, samples, plan, complaints, out RecordingWish? wish) ?? feeds.Add(new SampleFeed(samples, Sources.Signal, downlink, wish), FeedRole.Signal, option)
                : mistake;
        }

        if (!LineAddress.Read(address, option).Try(out LineAddress? where, out ParseError? error))
        {
            return error;
        }

        return where.MakePort(option, TimeProvider.System, out error) is { } port
            ? feeds.Add(new LineFeed(port, Sources.Signal, where.MakeGrammar()), FeedRole.Signal, option)
            : error;
    }

    private ParseError? OpenTuner(ParseResult parsed, LiveFeeds feeds)
    {
        const string option = "--tune";
        if (parsed.GetValue(_tune) is not { } address)
        {
            return null;
        }

        if (parsed.GetValue(_carrier) is not { } carrier)
        {
            return new ParseError(option, 0, 0, "give the carrier as the satellite sends it too, like --frequency 1701.3MHz");
        }

        return RigAddress.Read(address, option).Try(out RigAddress? where, out ParseError? error)
            ? feeds.Add(new RigTuner(where, Sources.Tune, carrier), FeedRole.Other, option)
            : error;
    }

    private ParseError? OpenPlace(ParseResult parsed, LiveFeeds feeds)
    {
        const string option = "--place";
        if (parsed.GetValue(_place) is not { } text)
        {
            return null;
        }

        PlaceAddress address = new(text);
        return address.MakePort(option, TimeProvider.System, out ParseError? error) is { } port
            ? feeds.Add(new LineFeed(port, Sources.Place, address.MakeGrammar()), FeedRole.Place, option)
            : error;
    }

    private Parsed<SessionPlan> ReadPlan(ParseResult parsed, TextWriter complaints)
    {
        string path = parsed.GetRequiredValue(_elements);
        if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
            || !ElementsInput.Pick(sets, path, parsed.GetValue(_satellite)).Try(out ElementSet? elements, out error))
        {
            return error;
        }

        if (Sgp4.Validate(elements) is { } refusal)
        {
            return new ParseError(path, 0, 0, refusal);
        }

        Site station = parsed.GetRequiredValue(_station)!.Value;
        DateTimeOffset start = parsed.GetValue(_at) ?? TimeProvider.System.GetUtcNow();
        CockpitSettings usual = CockpitSettings.Usual;
        HorizonMask? horizon = null;
        if (parsed.GetValue(_horizon) is { } mask && !HorizonInput.Read(mask).Try(out horizon, out error))
        {
            return error;
        }

        SessionSettings settings = new()
        {
            ProgramVersion = ProgramVersion.Text,
            Kind = SessionKind.Live,
            StationName = StationName(station),
            Station = station,
            SatelliteName = elements.Name.Trim(),
            Elements = elements,
            DishDiameterMetres = parsed.GetValue(_dish) ?? usual.Link.Dish.DiameterMetres,
            Downlink = parsed.GetValue(_carrier) ?? usual.Link.Carrier,
            MagneticDeclination = WorldMagneticModel.At(station, start).Declination,
            NorthByCompass = string.Equals(parsed.GetValue(_north), "compass", StringComparison.Ordinal),
            MinimumElevation = parsed.GetValue(_above) ?? usual.MinimumElevation,
            Skyline = horizon?.Points ?? [],
            Service = (parsed.GetValue(_service) ?? usual.Link.Service).Name,
            CueLead = usual.CueLead,
            SetUpError = parsed.GetValue(_setUp),
            Mount = string.Equals(parsed.GetValue(_mount), "free", StringComparison.Ordinal) ? Mount.Free : Mount.PanTilt,
            OverTheTop = parsed.GetValue(_overTheTop),
            Sun = parsed.GetValue(_sun) ?? CockpitSettings.UsualSun,
            Speed = parsed.GetValue(_speed) ?? 1.0,
        };
        if (SkyPlan.For(settings, start) is null)
        {
            return new ParseError("--station", 0, 0, NoPass(settings, start));
        }

        if (parsed.GetValue(_clock) is not null && parsed.GetValue(_at) is not null)
        {
            complaints.WriteLine($"{_clock.Name}: a session that starts at another instant ({_at.Name}) has no clock to compare; the time server is not asked");
        }

        (settings, string? whose) = ChosenHand.In(settings, parsed.GetValue(_hand), parsed.GetRequiredValue(_session.Sessions));
        if (whose is not null)
        {
            complaints.WriteLine(whose);
        }

        return _session.Read(parsed, settings, start) with { Clock = parsed.GetValue(_clock), StartsNow = parsed.GetValue(_at) is null };
    }

    private static string NoPass(SessionSettings settings, DateTimeOffset start) => string.Create(
        CultureInfo.InvariantCulture,
        $"{settings.SatelliteName} does not rise above {settings.MinimumElevation.Degrees:0.#} degrees here within {SkyPlan.HorizonDays:0} days of {start:yyyy-MM-dd'T'HH:mm:ss'Z'}; lower --above, choose another satellite, or start near the epoch with --at");

    private static string StationName(Site station) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Math.Abs(station.Latitude.Degrees):0.00}{(station.Latitude.Degrees < 0 ? 'S' : 'N')} {Math.Abs(station.Longitude.Degrees):0.00}{(station.Longitude.Degrees < 0 ? 'W' : 'E')}");
}
