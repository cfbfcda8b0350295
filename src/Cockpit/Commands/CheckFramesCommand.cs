using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Checks.Signal;
using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Commands;

/// <summary>cockpit check frames: what becomes of frames of coded QPSK, level by level, beside theory.</summary>
public static class CheckFramesCommand
{
    private const double FrameSeconds = 1.2;
    private const ulong Seed = 1;

    private static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("code", "code", -15),
        new("es_n0_db", "Es/N0", 6),
        new("eb_n0_db", "Eb/N0", 6),
        new("locked_percent", "locked %", 8),
        new("first_s", "first s", 7),
        new("marker_percent", "marker %", 8),
        new("marker_theory_percent", "theory", 7),
        new("decoded_percent", "decoded %", 9),
        new("decoded_ideal_percent", "ideal", 7),
        new("start_error_samples", "start", 6),
        new("verdict", "verdict", -8),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "frames",
            """
            Make frames of coded QPSK from -10 to 12 dB and tell how many are found by their marker and how many can be decoded, beside theory.

            Example:
              cockpit check frames --format csv
            """)
        {
            format,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed.GetValue(format), parsed.InvocationConfiguration.Output, cancel)));
        return command;
    }

    private static int Run(OutputFormat format, TextWriter output, CancellationToken cancel)
    {
        OutputRows rows = new(output, format, Columns);
        rows.Begin();
        int outside = 0, count = 0;
        foreach ((bool ok, Cell[] cells) in FrameRows())
        {
            if (cancel.IsCancellationRequested)
            {
                return CommandRoot.Failed;
            }

            rows.Add([.. cells, Cell.Of(ok ? "PASS" : "outside")]);
            (count, outside) = (count + 1, outside + (ok ? 0 : 1));
        }

        rows.End();
        rows.Note(
            "QPSK at 4 Msps with Doppler, its slope and a clock error, the carrier told 8 kHz wrong; Eb/N0 counts bits of the convolutional code. " +
            "theory = a receiver that knows place and carrier; ideal = the code on symbols in exact time and phase, 150 frames. " +
            "Asked: decoded at most 15 % below ideal, all from 6 dB up, nothing that was not sent.");
        rows.Note(string.Create(CultureInfo.InvariantCulture, $"{count} rows, {outside} outside their limit"));
        return outside == 0 ? 0 : CommandRoot.Failed;
    }

    private static IEnumerable<(bool Ok, Cell[] Cells)> FrameRows() =>
        from rate in new[] { CodeRate.Half, CodeRate.ThreeQuarters }
        from level in FrameTruth.Levels
        let row = FrameTruth.Measure(rate, level, FrameSeconds, Seed)
        select (row.Ok, new[]
        {
            Cell.Of(rate == CodeRate.Half ? "code 1/2, NRZ-M" : "code 3/4"), Cell.Of(row.SnrDb, 1), Cell.Of(row.BitEnergyDb, 1), Percent(row.Locked),
            Cell.Of(row.FirstSeconds, 3), Percent(row.Markers), Percent(row.MarkersInTheory), Percent(row.Decoded), Percent(row.DecodedIdeally), Cell.Of(row.WorstStart, 2),
        });

    private static Cell Percent(double share) => Cell.Of(100 * share, 1);
}
