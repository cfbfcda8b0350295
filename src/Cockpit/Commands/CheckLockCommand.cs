using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Checks.Signal;

namespace Cockpit.Commands;

/// <summary>cockpit check lock: what the frame locks do, beside theory.</summary>
public static class CheckLockCommand
{
    private const double LevelSeconds = 8;
    private const double NoiseSeconds = 60;
    private const int Trials = 8;

    private static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("kind", "kind", -11),
        new("what", "what", -23),
        new("eb_n0_db", "Eb/N0", 5),
        new("locked_percent", "locked %", 8),
        new("found_percent", "found %", 7),
        new("found_theory_percent", "theory", 6),
        new("received_percent", "recvd %", 7),
        new("ber", "errors", 7),
        new("ber_theory", "theory", 7),
        new("seconds", "s", 5),
        new("false", "false", 5),
        new("verdict", "verdict", -8),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "lock",
            """
            Make signals from 10 dB down to where the frame locks fail, with dropouts, and noise alone, and tell what the locks do, beside theory.
            Takes some minutes. cockpit check frames tells what can be decoded.

            Example:
              cockpit check lock --format csv
            """)
        {
            format,
        };
        command.SetAction((parsed, cancel) => RunAsync(new LockTruth(LevelSeconds, NoiseSeconds, Trials), parsed, parsed.GetValue(format), cancel));
        return command;
    }

    private static async Task<int> RunAsync(LockTruth truth, ParseResult parsed, OutputFormat format, CancellationToken cancel)
    {
        OutputRows rows = new(parsed.InvocationConfiguration.Output, format, Columns);
        rows.Begin();
        ImmutableArray<Func<LockFigure>> all = [.. truth.Rows()];
        Task<LockFigure>[] begun = new Task<LockFigure>[all.Length];
        var progress = ProgressBar.OnTerminal(parsed.InvocationConfiguration.Error, TimeProvider.System, all.Length, "rows");
        using SemaphoreSlim room = new(Environment.ProcessorCount);
        for (int k = 0; k < all.Length; k++)
        {
            begun[k] = MeasureAsync(all[k], room, cancel);
        }

        int asked = 0, outside = 0;
        for (int k = 0; k < all.Length; k++)
        {
            LockFigure figure = await begun[k];
            progress.Clear();
            rows.Add(CellsOf(figure));
            progress.Show(k + 1);
            (asked, outside) = (asked + (figure.Ok is null ? 0 : 1), outside + (figure.Ok == false ? 1 : 0));
        }

        progress.Clear();
        rows.End();
        rows.Note(
            "Eb/N0 counts the whole wave of split-phase, Es/N0 stands there for QPSK (code 3/4). found = sync word or marker in its place; theory = a receiver without loss that " +
            "knows the place: Q(sqrt(2 Eb/N0)) for a bit and the binomial for a sync word, Marcum's Q for a marker. recvd = found, and no fade within the line. s = first lock, or the longest of the tries. " +
            "Asked: from -2 dB up found as often as theory says 1.5 dB lower, all of it from 4 dB up; QPSK locked from -4 dB up; locked within 1 s at 8 dB, first and again; nothing in noise.");
        rows.Note(string.Create(CultureInfo.InvariantCulture, $"{asked} rows asked, {outside} outside their limit"));
        return outside == 0 ? 0 : CommandRoot.Failed;
    }

    private static async Task<LockFigure> MeasureAsync(Func<LockFigure> row, SemaphoreSlim room, CancellationToken cancel)
    {
        await room.WaitAsync(cancel);
        try
        {
            return await Task.Run(row, cancel);
        }
        finally
        {
            room.Release();
        }
    }

    private static Cell[] CellsOf(LockFigure f) =>
    [
        Cell.Of(f.Kind), Cell.Of(f.What), Cell.Of(f.SnrDb, 1), Percent(f.Locked), Percent(f.Found), Percent(f.FoundInTheory), Percent(f.Received),
        Cell.Of(f.BitErrors, 5), Cell.Of(f.BitErrorsInTheory, 5), Cell.Of(f.Seconds, 2), Cell.Of(f.False), Cell.Of(f.Ok switch { true => "PASS", false => "outside", _ => null }),
    ];

    private static Cell Percent(double? share) => Cell.Of(100 * share, 1);
}
