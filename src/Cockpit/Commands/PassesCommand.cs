using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Calendars;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Reports;
using Cockpit.Settings;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>In which order passes are listed.</summary>
internal enum PassOrder
{
    /// <summary>By time of rise.</summary>
    Time = 0,

    /// <summary>The best first.</summary>
    Best = 1,
}

/// <summary>cockpit passes: what comes over the station.</summary>
public sealed class PassesCommand
{
    private static readonly TimeSpan UsualSpan = TimeSpan.FromHours(72);
    private static readonly TimeSpan LongestSpan = TimeSpan.FromDays(366);

    private static readonly OutputColumn[] Columns =
    [
        new("satellite", "satellite", -12), new("catalog_number", null, 0),
        new("aos_utc", "AOS UTC", -19), new("tca_utc", null, 0), new("los_utc", null, 0),
        new("aos_azimuth_deg", "AOS", 4), new("tca_azimuth_deg", "TCA", 4), new("los_azimuth_deg", "LOS", 4),
        new("max_elevation_deg", "max el", 6), new("duration_s", "min", 5), new("tca_range_km", null, 0),
        new("cut_at_start", null, 0), new("cut_at_end", null, 0), new("elements_age_days", null, 0), .. VerdictCells.Columns,
    ];

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<DateTimeOffset?> _from = CommonOptions.From();
    private readonly Option<TimeSpan?> _for = CommonOptions.For();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();
    private readonly Option<double?> _dut1 = CommonOptions.Dut1();
    private readonly Option<bool> _refraction = CommonOptions.Refraction();
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly Option<PassOrder?> _order = CommonOptions.Value<PassOrder>("--order", "time|best", "By time of rise, or the best first", ReadOrder);
    private readonly Option<string?> _ics = new("--ics") { HelpName = "FILE", Description = "Write a calendar too (iCalendar), without the passes that are too weak" };
    private readonly Option<TimeSpan?> _alarm = CommonOptions.Value("--alarm", "SPAN", "How long before AOS the calendar rings, like 20m", SpanText.Read);
    private readonly DishOptions _dish = new();
    private readonly TimeProvider _clock;

    private PassesCommand(TimeProvider clock)
    {
        _clock = clock;
        _elements.Required = true;
        _station.Required = true;
    }

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no start was given.</param>
    public static Command Create(TimeProvider clock)
    {
        var it = new PassesCommand(clock);
        var command = new Command(
            "passes",
            """
            List what comes over the station: each pass that overlaps the span, 72 hours from now where nothing is said,
            with a verdict whether this dish should go out for it.

            Examples:
              cockpit passes --elements elements.tle --station 47.8,11.2,520
              cockpit passes --elements elements.tle --station 47.8,11.2 --from 2026-11-25T00:00:00Z --for 24h --above 10deg
              cockpit passes --elements elements.tle --station 47.8,11.2 --horizon 200:12,240:18,300:5 --format json
              cockpit passes --elements elements.tle --station 47.8,11.2 --dish 0.6 --service qpsk-2333k --order best
              cockpit passes --elements elements.tle --station 47.8,11.2 --ics passes.ics --alarm 20m
            """)
        {
            it._elements, it._satellite, it._station, it._from, it._for, it._above, it._horizon, it._dut1, it._refraction, it._format,
            it._order, it._ics, it._alarm,
        };
        it._dish.AddTo(command);
        command.SetAction((parsed, cancellation) => Task.FromResult(it.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!Question(parsed).Try(out PassQuestion? question, out ParseError? error)
            || !SatelliteChoice.Read(parsed.GetRequiredValue(_elements), parsed.GetValue(_satellite), complaints).Try(out ImmutableArray<Sgp4> satellites, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        var settings = new VerdictSettings { Site = question.Station, Link = _dish.Read(parsed) };
        var progress = ProgressBar.OnTerminal(complaints, _clock, satellites.Length, "satellites");
        Parsed<ImmutableArray<PassVerdict>> judged = PassListing.Judged(satellites, question, settings, progress.Show, cancellation);
        progress.Clear();
        if (!judged.Try(out ImmutableArray<PassVerdict> verdicts, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        Print(parsed, parsed.GetValue(_order) == PassOrder.Best ? PassJudge.BestFirst(verdicts) : verdicts, question);
        if (verdicts.IsEmpty)
        {
            complaints.WriteLine(FormattableString.Invariant(
                $"no pass above {question.Above.Degrees:0.###} degrees in this span; make --for longer or --above lower"));
        }

        return WriteCalendar(parsed, verdicts, question.Station);
    }

    private static Parsed<PassOrder> ReadOrder(string text, string source) => text switch
    {
        "time" => PassOrder.Time,
        "best" => PassOrder.Best,
        _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not an order; choose time or best"),
    };

    private void Print(ParseResult parsed, ImmutableArray<PassVerdict> verdicts, PassQuestion question)
    {
        var rows = new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(_format), Columns);
        rows.Begin();
        foreach (PassVerdict verdict in verdicts)
        {
            rows.Add([.. CellsOf(verdict, question), .. VerdictCells.Of(verdict)]);
            rows.Note(verdict.Sentence);
            rows.Note(verdict.Travel);
        }

        rows.End();
        if (verdicts.Any(verdict => verdict.SunNear && verdict.Word != VerdictWord.No))
        {
            rows.Note("Caution: in some of these the dish comes near the sun. Do not look along it, and keep out of the hot focus of a shiny dish.");
        }
    }

    private int WriteCalendar(ParseResult parsed, ImmutableArray<PassVerdict> verdicts, Site station)
    {
        if (parsed.GetValue(_ics) is not { } path)
        {
            return 0;
        }

        ImmutableArray<PassVerdict> worth = [.. verdicts.Where(verdict => verdict.Word != VerdictWord.No)];
        if (PassCalendar.Validate(worth.Length) is { } error)
        {
            parsed.InvocationConfiguration.Error.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        string text = PassCalendar.Write(worth, station, _clock.GetUtcNow(), parsed.GetValue(_alarm) ?? PassCalendar.UsualAlarm);
        if (WholeFile.Write(path, text, "the calendar", "--ics") is not { } trouble)
        {
            return 0;
        }

        parsed.InvocationConfiguration.Error.WriteLine(trouble);
        return CommandRoot.Failed;
    }

    private static Cell[] CellsOf(PassVerdict verdict, PassQuestion question)
    {
        Pass pass = verdict.Pass;
        Cell Azimuth(PassMoment moment) => Cell.Of(moment.Look.Azimuth.Degrees, 6, 0);
        return
        [
            Cell.Of(verdict.Candidate.Satellite), Cell.Of(verdict.Candidate.CatalogNumber),
            Cell.Of(pass.Aos.Utc, 6), Cell.Of(pass.Tca.Utc, 6), Cell.Of(pass.Los.Utc, 6),
            Azimuth(pass.Aos), Azimuth(pass.Tca), Azimuth(pass.Los),
            Cell.Of(question.Shown(pass.Tca.Look.Elevation).Degrees, 6, 1),
            Cell.Of(pass.Duration.TotalSeconds, 3) with { Brief = Cell.Of(pass.Duration.TotalMinutes, 1).Text },
            Cell.Of(pass.Tca.Look.RangeKm, 3),
            Cell.Of(pass.CutAtStart), Cell.Of(pass.CutAtEnd), Cell.Of(verdict.ElementAge.Age.TotalDays, 3, 1),
        ];
    }

    private Parsed<PassQuestion> Question(ParseResult parsed)
    {
        DateTimeOffset from = parsed.GetValue(_from) ?? _clock.GetUtcNow();
        TimeSpan span = parsed.GetValue(_for) ?? UsualSpan;
        if (span > LongestSpan || from.Year is < CommonOptions.FirstYear or > CommonOptions.LastYear)
        {
            return new ParseError(span > LongestSpan ? "--for" : "--from", 0, 0, span > LongestSpan
                ? "at most 366d can be searched; elements are not good for longer"
                : $"the start is outside the years {CommonOptions.FirstYear} to {CommonOptions.LastYear}, where no elements are good");
        }

        HorizonMask? horizon = null;
        if (parsed.GetValue(_horizon) is { } text && !HorizonInput.Read(text).Try(out horizon, out ParseError? error))
        {
            return error;
        }

        return new PassQuestion(
            parsed.GetValue(_station)!.Value, from, from + span, parsed.GetValue(_above) ?? CockpitSettings.Usual.MinimumElevation, horizon,
            parsed.GetValue(_dut1) ?? 0.0, parsed.GetValue(_refraction));
    }
}
