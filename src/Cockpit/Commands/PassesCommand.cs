using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Calendars;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
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
    private const int UsualMost = 10;
    private static readonly TimeSpan LongestSpan = TimeSpan.FromDays(366);

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string[]> _satellite = new("--satellite") { HelpName = "NAME|NUMBER", Description = "Only this satellite, by name or catalogue number; may be repeated; the favourites of the settings where missing" };
    private readonly Option<long?> _most = CommonOptions.Whole("--most", "N", $"The N best of them, in the order asked for; {UsualMost} in a table, all otherwise, where missing", 1, 100_000);
    private readonly Option<bool> _all = new("--all") { Description = "Every satellite of the file and every pass, also those that are too weak" };
    private readonly Option<bool> _local = new("--local") { Description = "Times of a table in local time in place of UTC" };
    private readonly Option<TimeZoneInfo?> _zone = CommonOptions.Zone("With --local: the zone");
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
    private readonly Option<Downlink[]> _downlinks = CommonOptions.Downlinks();
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
            it._order, it._most, it._all, it._local, it._zone, it._ics, it._alarm, it._downlinks,
        };
        it._dish.AddTo(command);
        command.SetAction((parsed, cancellation) => Task.FromResult(it.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!Question(parsed).Try(out PassQuestion? question, out ParseError? error)
            || !SatelliteChoice.Read(parsed.GetRequiredValue(_elements), parsed.GetValue(_satellite) ?? [], complaints).Try(out ImmutableArray<Sgp4> satellites, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        ImmutableArray<Downlink> downlinks = [.. parsed.GetValue(_downlinks) ?? []];
        SatelliteChoice.TellStrangers(satellites, parsed.GetValue(_satellite) ?? [], downlinks, complaints);
        var settings = new VerdictSettings { Site = question.Station, Link = _dish.Read(parsed) };
        var progress = ProgressBar.OnTerminal(complaints, _clock, satellites.Length, "satellites");
        var passes = new PassStream(satellites, question, settings, new SatelliteLinks(settings.Link, downlinks));
        if (Placement.Caution(question.Station, TimeZoneInfo.Local, question.From) is { } caution)
        {
            complaints.WriteLine(caution);
        }

        if (parsed.GetValue(_format) == OutputFormat.Table && !parsed.GetValue(_all))
        {
            return PrintTable(parsed, passes, progress, cancellation);
        }

        var rows = new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(_format), PassPrinter.Columns);
        return parsed.GetValue(_order) == PassOrder.Best || parsed.GetValue(_ics) is not null || parsed.GetValue(_most) is not null
            ? PrintWhole(parsed, new PassPrinter(rows, question), passes, progress, cancellation)
            : PrintStream(complaints, new PassPrinter(rows, question), passes, progress, cancellation);
    }

    /// <summary>Prints each pass as soon as all is known about it.</summary>
    private static int PrintStream(TextWriter complaints, PassPrinter printer, PassStream passes, ProgressBar progress, CancellationToken cancellation)
    {
        while (!passes.IsDone)
        {
            Parsed<ImmutableArray<PassVerdict>> next = passes.Next(progress.Show, cancellation);
            progress.Clear();
            if (!next.Try(out ImmutableArray<PassVerdict> verdicts, out ParseError? error))
            {
                printer.Break();
                complaints.WriteLine(error);
                return CommandRoot.WrongInput;
            }

            printer.Print(verdicts);
        }

        printer.End(complaints);
        return 0;
    }

    private int PrintWhole(ParseResult parsed, PassPrinter printer, PassStream passes, ProgressBar progress, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        Parsed<ImmutableArray<PassVerdict>> all = PassListing.All(passes, progress.Show, cancellation);
        progress.Clear();
        if (!all.Try(out ImmutableArray<PassVerdict> verdicts, out ParseError? error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        printer.Print(Ordered(parsed, Best(verdicts, parsed.GetValue(_most))));
        printer.End(complaints);
        return WriteCalendar(parsed, verdicts, passes.Question.Station);
    }

    /// <summary>What is worth going out for, and how much was left out.</summary>
    private int PrintTable(ParseResult parsed, PassStream passes, ProgressBar progress, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        Parsed<ImmutableArray<PassVerdict>> all = PassListing.All(passes, progress.Show, cancellation);
        progress.Clear();
        if (!all.Try(out ImmutableArray<PassVerdict> verdicts, out ParseError? error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        ImmutableArray<PassVerdict> worth = [.. verdicts.Where(verdict => verdict.Word != VerdictWord.No)];
        ImmutableArray<PassVerdict> best = Best(worth, parsed.GetValue(_most) ?? UsualMost);
        WallTime wall = new(parsed.GetValue(_local) ? parsed.GetValue(_zone) ?? TimeZoneInfo.Local : null);
        new PassTable(parsed.InvocationConfiguration.Output, passes.Question, wall).Print(Ordered(parsed, best), worth.Length - best.Length, verdicts.Length - worth.Length);
        if (best.IsEmpty)
        {
            complaints.WriteLine(PassPrinter.Nothing(passes.Question, verdicts.Length));
        }

        return WriteCalendar(parsed, verdicts, passes.Question.Station);
    }

    /// <summary>The best of them, in order of time.</summary>
    private static ImmutableArray<PassVerdict> Best(ImmutableArray<PassVerdict> verdicts, long? most) => most is { } n && n < verdicts.Length
        ? [.. PassJudge.BestFirst(verdicts).Take((int)n).OrderBy(verdict => verdict.Pass.Aos.Utc).ThenBy(verdict => verdict.Candidate.CatalogNumber)]
        : verdicts;

    private ImmutableArray<PassVerdict> Ordered(ParseResult parsed, ImmutableArray<PassVerdict> verdicts) =>
        parsed.GetValue(_order) == PassOrder.Best ? PassJudge.BestFirst(verdicts) : verdicts;

    private static Parsed<PassOrder> ReadOrder(string text, string source) => text switch
    {
        "time" => PassOrder.Time,
        "best" => PassOrder.Best,
        _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not an order; choose time or best"),
    };

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
