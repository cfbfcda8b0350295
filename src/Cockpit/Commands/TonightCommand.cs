using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Aim;
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

/// <summary>cockpit tonight: the few passes worth going out for, and all that is needed for them.</summary>
public sealed class TonightCommand
{
    private const int UsualMost = 4;

    /// <summary>A file of so many was put together by hand.</summary>
    private const int FewSatellites = 12;

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string[]> _satellite = new("--satellite") { HelpName = "NAME|NUMBER", Description = "Only this satellite, by name or catalogue number; may be repeated; the favourites of the settings where missing" };
    private readonly Option<Downlink[]> _downlinks = CommonOptions.Downlinks();
    private readonly Option<bool> _all = new("--all") { Description = "Every satellite of the file, not the favourites only" };
    private readonly Option<long?> _most = CommonOptions.Whole("--most", "N", $"The N best; {UsualMost} where missing", 1, 100_000);
    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly EveningSpan _span = new();
    private readonly Option<Angle?> _above = CommonOptions.Above();
    private readonly Option<string> _horizon = CommonOptions.Horizon();
    private readonly Option<TimeSpan?> _turn = CommonOptions.Value("--turn", "SPAN", FormattableString.Invariant($"What the dish needs from one satellite to the next, like 90s; {SharedDish.UsualTurn.TotalSeconds}s where missing"), SpanText.Read);
    private readonly RecordingPlace _recording = new();
    private readonly Option<string?> _page = new("--page") { HelpName = "FILE.html", Description = "Write the set-up sheet of a pass: one page to print, or to read on a phone" };
    private readonly Option<long?> _pass = CommonOptions.Whole("--pass", "N", "Of which of the listed passes; 1, the best, where missing", 1, 100_000);
    private readonly Option<string> _mount = new("--mount") { HelpName = "pan-tilt|free", Description = "In which axes the hand moves the dish, for the sheet", DefaultValueFactory = _ => "pan-tilt" };
    private readonly Option<SunRule?> _sun = CommonOptions.Sun();
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly DishOptions _dish = new();
    private readonly TimeProvider _clock;

    private TonightCommand(TimeProvider clock)
    {
        _clock = clock;
        _elements.Required = true;
        _station.Required = true;
        _mount.AcceptOnlyFromAmong("pan-tilt", "free");
    }

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no start was given.</param>
    public static Command Create(TimeProvider clock)
    {
        var it = new TonightCommand(clock);
        var command = new Command(
            "tonight",
            """
            The few passes that are worth going out for, the best first: when and where, what to tune, what the dish receives.

            Examples:
              cockpit tonight
              cockpit tonight --date 2026-11-28 --most 2
              cockpit tonight --page sheet.html --pass 2
              cockpit tonight --elements elements.tle --station 47.8,11.2,520 --for 12h --time-zone Europe/Berlin
            """)
        {
            it._elements, it._satellite, it._downlinks, it._all, it._most, it._station, it._above, it._horizon, it._turn, it._format, it._page, it._pass, it._mount, it._sun,
        };
        it._span.AddTo(command);
        it._recording.AddTo(command);
        it._dish.AddTo(command);
        command.SetAction((parsed, cancellation) => Task.FromResult(it.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (parsed.GetValue(_pass) is not null && parsed.GetValue(_page) is null)
        {
            complaints.WriteLine(new ParseError(_pass.Name, 0, 0, $"it chooses the pass of the sheet; say where that goes with {_page.Name} FILE.html"));
            return CommandRoot.WrongInput;
        }

        if (!Question(parsed).Try(out PassQuestion? question, out ParseError? error)
            || !_recording.Read(parsed).Try(out (RecordingNeed Need, string Folder) recording, out error)
            || !SatelliteChoice.Read(parsed.GetRequiredValue(_elements), parsed.GetValue(_satellite) ?? [], complaints).Try(out ImmutableArray<Sgp4> satellites, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        ImmutableArray<Downlink> downlinks = [.. parsed.GetValue(_downlinks) ?? []];
        SatelliteChoice.TellStrangers(satellites, parsed.GetValue(_satellite) ?? [], downlinks, complaints);
        var settings = new VerdictSettings { Site = question.Station, Link = _dish.Read(parsed) };
        var progress = ProgressBar.OnTerminal(complaints, _clock, satellites.Length, "satellites");
        Parsed<PassesAhead> found = PassPlanner.Find(satellites, question, settings, downlinks, progress.Show, cancellation);
        progress.Clear();
        if (!found.Try(out PassesAhead? ahead, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        int most = (int)Math.Max(parsed.GetValue(_most) ?? UsualMost, parsed.GetValue(_pass) ?? 1);
        var evening = Evening.Of(ahead, question, settings, most, parsed.GetValue(_turn) ?? SharedDish.UsualTurn);
        Warn(evening, complaints);
        Print(parsed, evening, recording.Need, recording.Folder);
        if (parsed.GetValue(_satellite) is not { Length: > 0 } && !parsed.GetValue(_all) && satellites.Length > FewSatellites)
        {
            complaints.WriteLine(FormattableString.Invariant($"these are of all {satellites.Length} satellites of the file; cockpit favourite add NAME keeps those that you follow"));
        }

        return WriteSheet(parsed, evening, recording.Need, recording.Folder);
    }

    private int WriteSheet(ParseResult parsed, Evening evening, RecordingNeed need, string folder)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        long number = parsed.GetValue(_pass) ?? 1;
        if (parsed.GetValue(_page) is not { } path)
        {
            return 0;
        }

        if (evening.Passes.Length < number)
        {
            complaints.WriteLine(new ParseError(_pass.Name, 0, 0, FormattableString.Invariant($"there are {evening.Passes.Length} passes that are worth something, so there is no sheet of pass {number}")));
            return CommandRoot.WrongInput;
        }

        Mount mount = string.Equals(parsed.GetValue(_mount), "free", StringComparison.Ordinal) ? Mount.Free : Mount.PanTilt;
        var facts = SheetFacts.For(evening.Passes[(int)number - 1], evening, _span.Clock(parsed), (mount, parsed.GetValue(_sun) ?? CockpitSettings.UsualSun), need, folder);
        if (WholeFile.Write(path, SetUpSheet.Of(facts), "the sheet", _page.Name) is not { } trouble)
        {
            complaints.WriteLine(FormattableString.Invariant($"the sheet of pass {number}, {facts.Pass.Satellite}, is in {path}"));
            return 0;
        }

        complaints.WriteLine(trouble);
        return CommandRoot.Failed;
    }

    private void Print(ParseResult parsed, Evening evening, RecordingNeed need, string folder)
    {
        TextWriter output = parsed.InvocationConfiguration.Output;
        WallTime clock = _span.Clock(parsed);
        if (parsed.GetValue(_format) is OutputFormat.Table)
        {
            new TonightTable(output, clock, need, folder).Print(evening);
            return;
        }

        var rows = new OutputRows(output, parsed.GetValue(_format), TonightCells.Columns);
        rows.Begin();
        foreach (EveningPass pass in evening.Passes)
        {
            rows.Add(TonightCells.Of(pass, evening, need, clock));
        }

        rows.End();
    }

    private static void Warn(Evening evening, TextWriter complaints)
    {
        if (Placement.Caution(evening.Question.Station, TimeZoneInfo.Local, evening.Question.From) is { } caution)
        {
            complaints.WriteLine(caution);
        }

        if (evening.Field.Warning is { } warning)
        {
            complaints.WriteLine("warning: " + warning);
        }

        if (evening.Passes.IsEmpty)
        {
            complaints.WriteLine(PassPrinter.Nothing(evening.Question, evening.Weak));
        }
    }

    private Parsed<PassQuestion> Question(ParseResult parsed)
    {
        if (!_span.Read(parsed, _clock.GetUtcNow()).Try(out (DateTimeOffset From, DateTimeOffset To) span, out ParseError? error))
        {
            return error;
        }

        HorizonMask? horizon = null;
        return parsed.GetValue(_horizon) is { } text && !HorizonInput.Read(text).Try(out horizon, out error)
            ? error
            : new PassQuestion(parsed.GetValue(_station)!.Value, span.From, span.To, parsed.GetValue(_above) ?? CockpitSettings.Usual.MinimumElevation, horizon, 0.0, Refraction: false);
    }
}
