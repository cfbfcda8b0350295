using System.Collections.Immutable;
using System.CommandLine;
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
    private const string UsualFolder = "../shared/reference/11_iq";

    private static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("clip", "clip", -22), new("figure", "figure", -32), new("value", "value", 10), new("unit", "unit", -8), new("limit", "limit", 8), new("verdict", "verdict", -8),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        var folder = new Argument<string?>("FOLDER") { Description = "Recordings with index.json and a truth file each", Arity = ArgumentArity.ZeroOrOne };
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "signal",
            """
            Measure recordings whose truth is known and compare figure by figure with what a meter must reach.

            Example:
              cockpit check signal recordings
            """)
        {
            folder, format,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
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
        rows.Note($"{clips.Length} recordings, {figures} figures, {outside} outside their limit");
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
            SignalMeter meter = new(recording.Layout.SampleRate, recording.Layout.Format, FrameLocks.For(recording.Layout.SampleRate));
            byte[] buffer = new byte[1 << 18];
            while (recording.Read(buffer) is > 0 and int count)
            {
                meter.Take(buffer.AsSpan(0, count), sink);
            }

            return sink;
        }
    }
}
