using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
using Cockpit.Settings;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit tonight: the few passes worth going out for, and all that is needed for them.</summary>
public sealed class TonightCommand
{
    private const int UsualMost = 4;

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
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly DishOptions _dish = new();
    private readonly TimeProvider _clock;

    private TonightCommand(TimeProvider clock)
    {
        _clock = clock;
        _elements.Required = true;
        _station.Required = true;
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
              cockpit tonight --elements elements.tle --station 47.8,11.2,520 --for 12h --time-zone Europe/Berlin
            """)
        {
            it._elements, it._satellite, it._downlinks, it._all, it._most, it._station, it._above, it._horizon, it._turn, it._format,
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
        if (!Question(parsed).Try(out PassQuestion? question, out ParseError? error)
            || !_recording.Read(parsed).Try(out (RecordingNeed Need, string Folder) recording, out error)
            || !SatelliteChoice.Read(parsed.GetRequiredValue(_elements), parsed.GetValue(_satellite) ?? [], complaints).Try(out ImmutableArray<Sgp4> satellites, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        var settings = new VerdictSettings { Site = question.Station, Link = _dish.Read(parsed) };
        var progress = ProgressBar.OnTerminal(complaints, _clock, satellites.Length, "satellites");
        Parsed<PassesAhead> found = PassPlanner.Find(satellites, question, settings, [.. parsed.GetValue(_downlinks) ?? []], progress.Show, cancellation);
        progress.Clear();
        if (!found.Try(out PassesAhead? ahead, out error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        var evening = Evening.Of(ahead, question, settings, (int)(parsed.GetValue(_most) ?? UsualMost), parsed.GetValue(_turn) ?? SharedDish.UsualTurn);
        Warn(evening, complaints);
        Print(parsed, evening, recording.Need, recording.Folder);
        return 0;
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
