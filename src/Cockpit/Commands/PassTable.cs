using System.Globalization;
using Cockpit.Core.Passes;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Commands;

/// <summary>The list of passes for people: few, with heads that cannot be misread, eighty columns wide.</summary>
/// <param name="output">Where to.</param>
/// <param name="question">What was looked for.</param>
/// <param name="clock">In which time.</param>
internal sealed class PassTable(TextWriter output, PassQuestion question, WallTime clock)
{
    private readonly OutputRows _rows = new(output, OutputFormat.Table, [
        new("", "satellite", -11), new("", "rise", -9), new("", "top", -5), new("", "set", -5), new("", "azimuths", -11),
        new("", "top el", 6), new("", "minutes", 7), new("", "dB over need", 12)]);

    /// <summary>Prints the list.</summary>
    /// <param name="shown">What is worth a line, in its order.</param>
    /// <param name="left">How many good ones are not shown.</param>
    /// <param name="weak">How many are too weak.</param>
    public void Print(IReadOnlyCollection<PassVerdict> shown, int left, int weak)
    {
        _rows.Note(Placement.Words(question.Station) + clock.Note);
        if (shown.Count > 0)
        {
            _rows.Begin();
        }

        foreach (PassVerdict verdict in shown)
        {
            _rows.Add(Cells(verdict));
            _rows.Note($"{verdict.Sentence}; {verdict.Travel}");
        }

        _rows.End();
        if (shown.Any(verdict => verdict.SunNear && verdict.Word != VerdictWord.No))
        {
            _rows.Note("Caution: in some of these the dish comes near the sun. Do not look along it, and keep out of the hot focus of a shiny dish.");
        }

        if (left + weak > 0)
        {
            _rows.Note(LeftOut(left, weak));
        }
    }

    private Cell[] Cells(PassVerdict verdict)
    {
        Pass pass = verdict.Pass;
        static string Azimuth(PassMoment moment) => moment.Look.Azimuth.WrappedToTurn().Degrees.ToString("000", CultureInfo.InvariantCulture);
        return
        [
            Cell.Of(verdict.Candidate.Satellite.Trim()),
            Cell.Of(clock.Day(pass.Aos.Utc)), Cell.Of(clock.Minute(pass.Tca.Utc)), Cell.Of(clock.Minute(pass.Los.Utc)),
            Cell.Of($"{Azimuth(pass.Aos)}>{Azimuth(pass.Tca)}>{Azimuth(pass.Los)}"),
            Cell.Of(question.Shown(pass.Tca.Look.Elevation).Degrees, 0),
            Cell.Of(pass.Duration.TotalMinutes, 1),
            Cell.Of(verdict.MarginAtCulmination.Value.ToString("+0.0;-0.0", CultureInfo.InvariantCulture)),
        ];
    }

    private static string LeftOut(int left, int weak)
    {
        string good = left == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{left} more that are worth it (--most {left + 100} shows more)");
        string poor = weak == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{weak} that are too weak (--all shows them)");
        return $"Left out: {string.Join(" and ", new[] { good, poor }.Where(text => text.Length > 0))}.";
    }
}
