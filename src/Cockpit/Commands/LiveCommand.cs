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
using Cockpit.Planning;
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
    private readonly LiveTargets _targets = new();
    private readonly LiveFeedOptions _feeds = new();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();

    private readonly Option<ImmutableArray<Landmark>?> _landmarks = CommonOptions.Value(
        "--landmarks", LandmarksText.Form, "What you see and the map has: pointed at before the pass, one tells how far the sensor on the dish is off", LandmarksText.Read);

    private readonly Option<Service?> _service = CommonOptions.Service();
    private readonly SessionOptions _session = new();
    private readonly Option<TimeServerText?> _clock = CommonOptions.Named("--clock", TimeServerText.Form, "Compare this computer's clock with a time server; C corrects the predictions by what was found", TimeServerText.Read);
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

    /// <summary>A pass that was chosen is searched anew from here on: well after the one before it, which may end at the same tree.</summary>
    private static readonly TimeSpan BeforeRise = TimeSpan.FromSeconds(5);

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
            it._station, it._at, it._clock, it._speed, it._dish, it._carrier, it._above, it._horizon, it._landmarks, it._service, it._hand, it._setUp, it._mount, it._overTheTop, it._sun, it._north,
        };
        it._station.Required = true;
        it._targets.AddTo(command);
        it._feeds.AddTo(command);
        it._session.AddTo(command);
        command.SetAction(it.RunAsync);
        return command;
    }

    /// <summary>One session; then those that the operator chooses in its place.</summary>
    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        LivePick? pick = null;
        int code;
        do
        {
            (code, pick) = await FlyAsync(parsed, pick, cancellation);
        }
        while (pick is not null);
        return code;
    }

    private async Task<(int Code, LivePick? Next)> FlyAsync(ParseResult parsed, LivePick? pick, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        await using LiveFeeds feeds = new();
        DateTimeOffset start = parsed.GetValue(_at) ?? TimeProvider.System.GetUtcNow();
        if (!ReadTarget(parsed, pick, start, complaints, cancellation).Try(out LiveTarget? target, out ParseError? error)
            || !ReadPlan(parsed, target, start, complaints).Try(out SessionPlan? plan, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return (CommandRoot.WrongInput, null);
        }

        if (!plan.Plain && CockpitScreen.WhyNoScreen() is { } why)
        {
            await complaints.WriteLineAsync($"{why.TrimEnd('.')}, or use --plain for lines.");
            return (CommandRoot.WrongInput, null);
        }

        Frequency? carrier = parsed.GetValue(_carrier) ?? target.Downlink?.Carrier;
        if (!_feeds.Open(parsed, plan, carrier, feeds, complaints).Try(out plan, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return (CommandRoot.WrongInput, null);
        }

        SessionRun run = new(plan, parsed.InvocationConfiguration.Output, complaints, feeds);
        int code = await run.RunAsync(cancellation);
        return (code, run.Chosen is { } index ? target.Pick?.With(index) : null);
    }

    private Parsed<LiveTarget> ReadTarget(ParseResult parsed, LivePick? pick, DateTimeOffset start, TextWriter complaints, CancellationToken cancellation)
    {
        if (pick is not null)
        {
            return LiveTargets.Of(pick);
        }

        if (ReadSkyline(parsed, out HorizonMask? horizon) is { } wrong)
        {
            return wrong;
        }

        LinkModel usual = CockpitSettings.Usual.Link;
        LinkModel link = usual with
        {
            Dish = usual.Dish with { DiameterMetres = parsed.GetValue(_dish) ?? usual.Dish.DiameterMetres },
            Carrier = parsed.GetValue(_carrier) ?? usual.Carrier,
            Service = parsed.GetValue(_service) ?? usual.Service,
        };
        PassQuestion question = new(
            parsed.GetRequiredValue(_station)!.Value, start, start + LivePick.Span, parsed.GetValue(_above) ?? CockpitSettings.Usual.MinimumElevation, horizon, 0.0, Refraction: false);
        if (!_targets.Read(parsed, question, link, complaints, cancellation).Try(out LiveTarget? target, out ParseError? error))
        {
            return error;
        }

        if (target.Pick is { } chosen)
        {
            complaints.WriteLine(chosen.Line);
        }

        return _feeds.IsOnce(parsed) && target.Pick is { } only ? target with { Pick = only.Alone } : target;
    }

    /// <summary>What hides the sky; null where nobody said.</summary>
    /// <returns>What is wrong with it, one sentence; null when all is well.</returns>
    private ParseError? ReadSkyline(ParseResult parsed, out HorizonMask? horizon)
    {
        horizon = null;
        return parsed.GetValue(_horizon) is { } mask && !HorizonInput.Read(mask).Try(out horizon, out ParseError? error) ? error : null;
    }

    private Parsed<SessionPlan> ReadPlan(ParseResult parsed, LiveTarget target, DateTimeOffset start, TextWriter complaints)
    {
        if (ReadSkyline(parsed, out HorizonMask? horizon) is { } wrong)
        {
            return wrong;
        }

        ElementSet elements = target.Elements;
        Site station = parsed.GetRequiredValue(_station)!.Value;
        CockpitSettings usual = CockpitSettings.Usual;
        SessionSettings settings = new()
        {
            ProgramVersion = ProgramVersion.Text,
            Kind = SessionKind.Live,
            StationName = StationName(station),
            Station = station,
            SatelliteName = elements.Name.Trim(),
            Elements = elements,
            DishDiameterMetres = parsed.GetValue(_dish) ?? usual.Link.Dish.DiameterMetres,
            Downlink = parsed.GetValue(_carrier) ?? target.Downlink?.Carrier ?? usual.Link.Carrier,
            MagneticDeclination = WorldMagneticModel.At(station, start).Declination,
            NorthByCompass = string.Equals(parsed.GetValue(_north), "compass", StringComparison.Ordinal),
            MinimumElevation = parsed.GetValue(_above) ?? usual.MinimumElevation,
            Skyline = horizon?.Points ?? [],
            Landmarks = parsed.GetValue(_landmarks) ?? [],
            NotBefore = target.Pick?.Chosen.Pass.Aos.Utc - BeforeRise,
            Choice = target.Pick?.Choice,
            SetUp = Facts(parsed, target),
            Service = (parsed.GetValue(_service) ?? target.Downlink?.Service ?? usual.Link.Service).Name,
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

    /// <summary>What nobody told, and what was wrong in what was told.</summary>
    private SetUpFacts Facts(ParseResult parsed, LiveTarget target)
    {
        (string Name, bool Told)[] facts =
        [
            ("dish", parsed.GetValue(_dish) is not null),
            ("frequency", parsed.GetValue(_carrier) is not null || target.Downlink is not null),
            ("service", parsed.GetValue(_service) is not null || target.Downlink?.Service is not null),
        ];
        return new SetUpFacts(
            Surroundings.SettingsOf(parsed)?.Mistakes.Length ?? 0,
            [.. facts.Where(fact => !fact.Told).Select(fact => fact.Name)],
            parsed.GetValue(_at) is not null);
    }

    private static string NoPass(SessionSettings settings, DateTimeOffset start) => string.Create(
        CultureInfo.InvariantCulture,
        $"{settings.SatelliteName} does not rise above {settings.MinimumElevation.Degrees:0.#} degrees here within {SkyPlan.HorizonDays:0} days of {start:yyyy-MM-dd'T'HH:mm:ss'Z'}; lower --above, choose another satellite, or start near the epoch with --at");

    private static string StationName(Site station) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Math.Abs(station.Latitude.Degrees):0.00}{(station.Latitude.Degrees < 0 ? 'S' : 'N')} {Math.Abs(station.Longitude.Degrees):0.00}{(station.Longitude.Degrees < 0 ? 'W' : 'E')}");
}
