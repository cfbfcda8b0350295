using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Settings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit guide: the guidance as a filter of records.</summary>
public sealed class GuideCommand
{
    private const string Source = "standard input";

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<Frequency?> _carrier = CommonOptions.Carrier();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();
    private readonly Option<Service?> _service = CommonOptions.Service();
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<string> _skill = new("--skill") { HelpName = "novice|practised", Description = "Whose hand moves the dish", DefaultValueFactory = _ => "novice" };
    private readonly Option<SetUpError?> _setUp = CommonOptions.SetUp();
    private readonly Option<string> _mount = new("--mount") { HelpName = "pan-tilt|free", Description = "In which axes it does", DefaultValueFactory = _ => "pan-tilt" };
    private readonly Option<bool> _overTheTop = CommonOptions.OverTheTop();
    private readonly Option<SunRule?> _sun = CommonOptions.Sun();

    private readonly Option<string?> _sessions = new("--sessions") { HelpName = "DIR", Description = "Keep the session in this folder, as live does; not kept where missing" };

    private GuideCommand()
    {
        _skill.Aliases.Add("--hand");
        _skill.AcceptOnlyFromAmong("novice", "practised");
        _mount.AcceptOnlyFromAmong("pan-tilt", "free");
        _elements.Required = true;
        _station.Required = true;
    }

    /// <summary>The command.</summary>
    public static Command Create()
    {
        GuideCommand it = new();
        Command command = new(
            "guide",
            """
            Guide by records on standard input: for each one line of JSON with word, nudge, target, dish and cue.

            A record is a line in the grammar of the feeds with t (UTC in ISO 8601 or Unix seconds, never falling); t alone is a tick of
            a silent feed, key=peaked|moved|not-moved|search presses a key. The records are the clock: the same records give the same
            lines, as fast as they come.

            Example:
              cockpit guide --elements petrel.txt --station 50.2,10.4,380 < records.txt
            """)
        {
            it._elements, it._satellite, it._station, it._dish, it._carrier, it._above, it._horizon, it._service, it._skill, it._setUp, it._mount, it._overTheTop, it._sun, it._sessions,
        };
        command.SetAction((parsed, _) => it.RunAsync(parsed, Console.OpenStandardInput()));
        return command;
    }

    /// <summary>Filters a stream of records.</summary>
    /// <param name="input">The records.</param>
    /// <param name="elements">What the session is about, once its begin is known.</param>
    /// <param name="sessions">Folder in which the session is kept; null when it is not.</param>
    /// <param name="output">One object a line.</param>
    /// <param name="complaints">One sentence when something is wrong.</param>
    internal static async Task<int> FilterAsync(Stream input, SessionElements elements, string? sessions, TextWriter output, TextWriter complaints)
    {
        using StreamReader reader = new(input, Encoding.UTF8, detectEncodingFromByteOrderMarks: false, bufferSize: 4096);
        KeptSession? kept = null;
        GuideFilter? filter = null;
        GuideJson json = new();
        ParseError? wrong = null;
        int number = 0;
        while (wrong is null && await reader.ReadLineAsync() is { } line)
        {
            SignalLine record = SignalLine.ReadTimed(Encoding.UTF8.GetBytes(line), Source, ++number);
            if (record.IsNothing)
            {
                continue;
            }

            wrong = record.Error ?? Begin(ref filter, ref kept, elements, sessions, record);
            if (wrong is null && filter is not null && filter.Take(record, Source, number).Try(out GuideMoment? moment, out wrong))
            {
                await output.WriteAsync(json.Line(moment) + "\n");
                await output.FlushAsync();
            }
        }

        filter?.End();
        if (kept is not null)
        {
            await kept.DisposeAsync();
        }

        if ((wrong?.ToString() ?? kept?.Trouble) is { } trouble)
        {
            await complaints.WriteLineAsync(trouble);
        }

        return wrong is not null ? CommandRoot.WrongInput : kept?.Trouble is null ? 0 : CommandRoot.Failed;
    }

    private static ParseError? Begin(ref GuideFilter? filter, ref KeptSession? kept, SessionElements elements, string? sessions, SignalLine record)
    {
        if (filter is not null)
        {
            return null;
        }

        DateTimeOffset start = record.Utc.GetValueOrDefault();
        SessionSettings settings = elements(start);
        if (SkyPlan.For(settings, start) is null)
        {
            return new ParseError(Source, 1, 1, FormattableString.Invariant($"{settings.SatelliteName} has no pass here within {SkyPlan.HorizonDays:0} days of the first record; check --station, --satellite and t"));
        }

        if (sessions is not null && !KeptSession.Begin(sessions, settings, start).Try(out kept, out ParseError? error))
        {
            return error;
        }

        filter = new GuideFilter(settings, kept is null ? null : kept.Append);
        return null;
    }

    private async Task<int> RunAsync(ParseResult parsed, Stream input)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string path = parsed.GetRequiredValue(_elements);
        if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
            || !ElementsInput.Pick(sets, path, parsed.GetValue(_satellite)).Try(out ElementSet? elements, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        if (Sgp4.Validate(elements) is { } wrong)
        {
            await complaints.WriteLineAsync(new ParseError(path, 0, 0, wrong).ToString());
            return CommandRoot.WrongInput;
        }

        HorizonMask? horizon = null;
        if (parsed.GetValue(_horizon) is { } mask && !HorizonInput.Read(mask).Try(out horizon, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        return await FilterAsync(input, start => SettingsOf(parsed, elements, start) with { Skyline = horizon?.Points ?? [] }, parsed.GetValue(_sessions), parsed.InvocationConfiguration.Output, complaints);
    }

    private SessionSettings SettingsOf(ParseResult parsed, ElementSet elements, DateTimeOffset start)
    {
        Site station = parsed.GetRequiredValue(_station).GetValueOrDefault();
        CockpitSettings usual = CockpitSettings.Usual;
        return new SessionSettings
        {
            ProgramVersion = ProgramVersion.Text,
            Kind = SessionKind.Live,
            StationName = "",
            Station = station,
            SatelliteName = elements.Name.Trim(),
            Elements = elements,
            DishDiameterMetres = parsed.GetValue(_dish) ?? usual.Link.Dish.DiameterMetres,
            Downlink = parsed.GetValue(_carrier) ?? usual.Link.Carrier,
            MagneticDeclination = WorldMagneticModel.At(station, start).Declination,
            MinimumElevation = parsed.GetValue(_above) ?? usual.MinimumElevation,
            CueLead = string.Equals(parsed.GetValue(_skill), "practised", StringComparison.Ordinal) ? CockpitSettings.PractisedLead : usual.CueLead,
            SetUpError = parsed.GetValue(_setUp),
            Mount = string.Equals(parsed.GetValue(_mount), "free", StringComparison.Ordinal) ? Mount.Free : Mount.PanTilt,
            OverTheTop = parsed.GetValue(_overTheTop),
            Sun = parsed.GetValue(_sun) ?? CockpitSettings.UsualSun,
            Service = (parsed.GetValue(_service) ?? usual.Link.Service).Name,
            Feeds = [FeedSettings.Signal],
        };
    }
}

/// <summary>The settings of a session that begins at an instant.</summary>
internal delegate SessionSettings SessionElements(DateTimeOffset start);
