using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Geo;
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
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<string> _skill = new("--skill") { HelpName = "novice|practised", Description = "Whose hand moves the dish", DefaultValueFactory = _ => "novice" };
    private readonly Option<string> _mount = new("--mount") { HelpName = "pan-tilt|free", Description = "In which axes it does", DefaultValueFactory = _ => "pan-tilt" };

    private GuideCommand()
    {
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
            it._elements, it._satellite, it._station, it._dish, it._carrier, it._above, it._skill, it._mount,
        };
        command.SetAction(parsed => it.Run(parsed, Console.OpenStandardInput()));
        return command;
    }

    /// <summary>Filters a stream of records.</summary>
    internal static int Filter(Stream input, SessionElements elements, TextWriter output, TextWriter complaints)
    {
        GuideFilter? filter = null;
        GuideJson json = new();
        using StreamReader reader = new(input, Encoding.UTF8, detectEncodingFromByteOrderMarks: false, bufferSize: 4096);
        int number = 0;
        while (reader.ReadLine() is { } line)
        {
            SignalLine record = SignalLine.ReadTimed(Encoding.UTF8.GetBytes(line), Source, ++number);
            if (record.IsNothing)
            {
                continue;
            }

            if (record.Error is { } error || !Begin(ref filter, elements, record).Try(out GuideFilter? running, out error)
                || !running.Take(record, Source, number).Try(out GuideMoment? moment, out error))
            {
                complaints.WriteLine(error);
                return CommandRoot.WrongInput;
            }

            output.Write(json.Line(moment) + "\n");
            output.Flush();
        }

        filter?.End();
        return 0;
    }

    private static Parsed<GuideFilter> Begin(ref GuideFilter? filter, SessionElements elements, SignalLine record)
    {
        if (filter is null)
        {
            SessionSettings settings = elements(record.Utc.GetValueOrDefault());
            if (SkyPlan.For(settings, record.Utc.GetValueOrDefault()) is null)
            {
                return new ParseError(Source, 1, 1, FormattableString.Invariant($"{settings.SatelliteName} has no pass here within {SkyPlan.HorizonDays:0} days of the first record; check --station, --satellite and t"));
            }

            filter = new GuideFilter(settings);
        }

        return filter;
    }

    private int Run(ParseResult parsed, Stream input)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string path = parsed.GetRequiredValue(_elements);
        if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
            || !ElementsInput.Pick(sets, path, parsed.GetValue(_satellite)).Try(out ElementSet? elements, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        if (Sgp4.Validate(elements) is { } wrong)
        {
            complaints.WriteLine(new ParseError(path, 0, 0, wrong));
            return CommandRoot.WrongInput;
        }

        return Filter(input, start => SettingsOf(parsed, elements, start), parsed.InvocationConfiguration.Output, complaints);
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
            Mount = string.Equals(parsed.GetValue(_mount), "free", StringComparison.Ordinal) ? Mount.Free : Mount.PanTilt,
            Feeds = [FeedSettings.Signal],
        };
    }
}

/// <summary>The settings of a session that begins at an instant.</summary>
internal delegate SessionSettings SessionElements(DateTimeOffset start);
