using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Cockpit.Checks.Signal;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit check signal: the meter against recordings whose truth is known.</summary>
public static class CheckSignalCommand
{
    private const double UsualSeconds = 2.0;
    private const string UsualFolder = "recordings";

    private static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("clip", "clip", -22), new("figure", "figure", -32), new("value", "value", 10), new("unit", "unit", -8), new("limit", "limit", 8), new("verdict", "verdict", -8),
    ];

    private static readonly ImmutableArray<OutputColumn> TruthColumns =
    [
        new("case", "case", -28), new("snr_db", "SNR", 5), new("windows", "windows", 7), new("bias_db", "bias", 6), new("sd_db", "sd", 5),
        new("offset_rms_hz", "offset", 8), new("kind_percent", "kind %", 6), new("first_lock_s", "lock s", 6), new("frames_sent", "sent", 4),
        new("frames_received", "recvd", 5), new("frames_false", "false", 5), new("verdict", "verdict", -8),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        var folder = new Argument<string?>("folder") { HelpName = "FOLDER", Description = "Recordings with index.json and a truth file each; recordings where missing", Arity = ArgumentArity.ZeroOrOne };
        Option<OutputFormat> format = CommonOptions.Format();
        var truth = new Option<bool>("--truth") { Description = "Instead: the table of bias and spread of the SNR against samples made here, -5 to 20 dB" };
        var wide = new Option<bool>("--wide") { Description = "With --truth: more kinds, rates and formats from -10 dB up, and the frame locks; takes ten minutes" };
        Option<double?> seconds = CommonOptions.Number("--seconds", "SECONDS", FormattableString.Invariant($"Length of each case of --truth; {UsualSeconds} where missing"), 0.5, 600.0);
        var command = new Command(
            "signal",
            """
            Measure recordings whose truth is known and compare figure by figure with what a meter must reach.

            Example:
              cockpit check signal recordings
              cockpit check signal --truth
            """)
        {
            folder, format, truth, wide, seconds,
        };
        command.SetAction((parsed, cancel) => parsed.GetValue(truth)
            ? TruthAsync(CasesOf(parsed.GetValue(wide), parsed.GetValue(seconds) ?? UsualSeconds), parsed.GetValue(format), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)
            : Task.FromResult(Run(
            parsed.GetValue(folder) ?? UsualFolder, parsed.GetValue(format), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)));
        return command;
    }

    private static int Run(string folder, OutputFormat format, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        ImmutableArray<ClipTruth> clips;
        try
        {
            clips = ClipTruth.ReadAll(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException or KeyNotFoundException or InvalidOperationException)
        {
            complaints.WriteLine($"{folder}: {e.Message.TrimEnd('.')}; give a folder with index.json, the recordings and their truth files");
            return CommandRoot.WrongInput;
        }

        OutputRows rows = new(output, format, Columns);
        rows.Begin();
        int outside = 0, figures = 0;
        foreach (ClipTruth clip in clips)
        {
            if (cancel.IsCancellationRequested)
            {
                return CommandRoot.Failed;
            }

            if (!Measure(clip).Try(out RecordingSink? measured, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            foreach (Figure figure in new ClipCheck(clip, measured).Figures())
            {
                figures++;
                outside += figure.Ok ? 0 : 1;
                Cell value = figure.Value is { } v && double.IsInfinity(v) ? Cell.Of("none") : Cell.Of(figure.Value, 3);
                rows.Add(Cell.Of(figure.Clip), Cell.Of(figure.Name), value, Cell.Of(figure.Unit, " "), Cell.Of(figure.Limit, 3), Cell.Of(figure.Ok ? "PASS" : "outside"));
            }
        }

        rows.End();
        rows.Note(string.Create(CultureInfo.InvariantCulture, $"{clips.Length} recordings, {figures} figures, {outside} outside their limit"));
        return outside == 0 ? 0 : CommandRoot.Failed;
    }

    private static ImmutableArray<TruthCase> CasesOf(bool wide, double seconds) => wide ? TruthCase.Wide(seconds) : TruthCase.Usual(seconds);

    private static async Task<int> TruthAsync(ImmutableArray<TruthCase> cases, OutputFormat format, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        TruthLine?[] lines = new TruthLine?[cases.Length];
        int done = 0;
        var progress = ProgressBar.OnTerminal(complaints, TimeProvider.System, cases.Length, "cases");
        await Parallel.ForAsync(0, cases.Length, cancel, (k, _) =>
        {
            lines[k] = cases[k].Measure();
            progress.Show(Interlocked.Increment(ref done));
            return ValueTask.CompletedTask;
        });
        progress.Clear();

        OutputRows rows = new(output, format, TruthColumns);
        rows.Begin();
        foreach (TruthLine line in lines.OfType<TruthLine>())
        {
            rows.Add(
                Cell.Of(line.Case), Cell.Of(line.SnrDb, 1), Cell.Of(line.Windows), Cell.Of(line.BiasDb, 3, 2), Cell.Of(line.SpreadDb, 3, 2), Cell.Of(line.OffsetRmsHz, 1),
                Cell.Of(100 * line.KindRight, 1, 0), Cell.Of(line.FirstLock, 1), Cell.Of(line.Sent), Cell.Of(line.Received), Cell.Of(line.False),
                Cell.Of(!line.IsAimed ? null : line.Ok ? "PASS" : "outside"));
        }

        rows.End();
        int outside = lines.Count(line => line is { Ok: false });
        rows.Note(string.Create(
            CultureInfo.InvariantCulture,
            $"Windows of 100 ms. Asked from 0 dB up: bias and spread within 0.3 dB, every window of the right kind. {lines.Count(line => line is { IsAimed: true })} rows asked, {outside} outside"));
        return outside == 0 ? 0 : CommandRoot.Failed;
    }

    private static Core.Formats.Parsed<RecordingSink> Measure(ClipTruth clip)
    {
        if (!SampleOptions.Split(clip.Source, clip.Name).Try(out (string Address, SampleOptions Options) parts, out ParseError? error)
            || !RecordingFile.Open(parts.Address["file:".Length..], parts.Options, clip.Name).Try(out RecordingFile? recording, out error))
        {
            return error;
        }

        using (recording)
        {
            RecordingSink sink = new();
            SignalMeter meter = new(recording.Layout.SampleRate, recording.Layout.Format, FrameLocks.For(recording.Layout.SampleRate), recording.Layout.Exchanged);
            byte[] buffer = new byte[1 << 18];
            while (recording.Read(buffer) is > 0 and int count)
            {
                meter.Take(buffer.AsSpan(0, count), sink);
            }

            meter.Finish(sink);
            return sink;
        }
    }
}
