using System.Collections.Immutable;
using Cockpit.Core.Passes;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Commands;

/// <summary>Prints passes with their verdicts, as they come.</summary>
/// <param name="rows">Where to.</param>
/// <param name="question">What was looked for.</param>
internal sealed class PassPrinter(OutputRows rows, PassQuestion question)
{
    /// <summary>What is printed of a pass.</summary>
    public static IReadOnlyList<OutputColumn> Columns { get; } =
    [
        new("satellite", "satellite", -12), new("catalog_number", null, 0),
        new("aos_utc", "AOS UTC", -19), new("tca_utc", null, 0), new("los_utc", null, 0),
        new("aos_azimuth_deg", "AOS", 4), new("tca_azimuth_deg", "TCA", 4), new("los_azimuth_deg", "LOS", 4),
        new("max_elevation_deg", "max el", 6), new("duration_s", "min", 5), new("tca_range_km", null, 0),
        new("cut_at_start", null, 0), new("cut_at_end", null, 0), new("elements_age_days", null, 0), .. VerdictCells.Columns,
    ];

    private bool _begun;
    private bool _any;
    private bool _sunNear;

    /// <summary>Prints some.</summary>
    public void Print(ImmutableArray<PassVerdict> verdicts)
    {
        Begin();
        foreach (PassVerdict verdict in verdicts)
        {
            _any = true;
            _sunNear |= verdict.SunNear && verdict.Word != VerdictWord.No;
            rows.Add([.. CellsOf(verdict), .. VerdictCells.Of(verdict)]);
            rows.Note(verdict.Sentence);
            rows.Note(verdict.Travel);
        }
    }

    /// <summary>Ends a list that is whole.</summary>
    /// <param name="complaints">Told where nothing was found.</param>
    public void End(TextWriter complaints)
    {
        Begin();
        rows.End();
        if (_sunNear)
        {
            rows.Note("Caution: in some of these the dish comes near the sun. Do not look along it, and keep out of the hot focus of a shiny dish.");
        }

        if (!_any)
        {
            complaints.WriteLine(Nothing(question, 0));
        }
    }

    /// <summary>The sentence where there is nothing to print.</summary>
    /// <param name="question">What was looked for.</param>
    /// <param name="weak">How many passes are too weak for the dish.</param>
    public static string Nothing(PassQuestion question, int weak) => weak > 0
        ? FormattableString.Invariant($"none of the {weak} passes above {question.Above.Degrees:0.###} degrees is worth going out for; --all shows them, --dish METRES tells of another dish")
        : FormattableString.Invariant($"no pass above {question.Above.Degrees:0.###} degrees in this span; make --for longer or --above lower");

    /// <summary>Ends a list that cannot go on; nothing is printed where nothing was begun.</summary>
    public void Break()
    {
        if (_begun)
        {
            rows.End();
        }
    }

    private void Begin()
    {
        if (!_begun)
        {
            rows.Begin();
        }

        _begun = true;
    }

    private Cell[] CellsOf(PassVerdict verdict)
    {
        Pass pass = verdict.Pass;
        static Cell Azimuth(PassMoment moment) => Cell.Of(moment.Look.Azimuth.Degrees, 6, 0);
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
}
