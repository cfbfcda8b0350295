using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit meter: what is in samples, ten times a second.</summary>
public sealed class MeterCommand
{
    private const int BufferBytes = 1 << 18;

    private readonly Argument<string> _address = new("address") { HelpName = "ADDRESS", Description = "The samples: file:PATH, tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT or stdin:, with ?format=...&rate=... where nothing else tells" };
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly Option<DateTimeOffset?> _start = CommonOptions.Value("--start", "UTC", "Time of the first sample, like 2026-11-25T12:00:00Z; else what the recording tells, else now, of a finished one 1970", (text, source) => InstantText.Read(text, source));
    private readonly Option<bool> _follow = new("--follow") { Description = "Go on at the end: a recording that is still being written, a sender that comes back" };
    private readonly Option<TimeSpan?> _for = CommonOptions.Value("--for", "SPAN", "Measure so much of it, like 30s", SpanText.Read);
    private readonly Option<string> _picture = new("--picture") { HelpName = "FILE.png", Description = "Write one channel of the split-phase service as a picture, lost lines black" };
    private readonly Option<int> _channel = new("--channel") { HelpName = "1-5", Description = "Which channel", DefaultValueFactory = _ => 1 };
    private readonly Option<bool> _noLock = new("--no-lock") { Description = "Measure only: look for no frames" };
    private readonly TimeProvider _clock;

    private MeterCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    public static Command Create(TimeProvider clock)
    {
        MeterCommand it = new(clock);
        Command command = new(
            "meter",
            $"""
            Measure samples of a receiver: one row each 100 ms with level, noise floor, SNR, carrier offset, clipping, kind of signal and frames.

            utc is the time of a row's first sample. level and noise are dB of full scale (1 for each component), noise in the whole band.
            snr is Es/N0 of the whole wave, also of what the band cuts off. lines_ok and lines_lost count from the first sample on.
            In a terminal it is a live table with level bar and spectrum; with --format, or where the output goes elsewhere, rows.
            Options of the address: {SampleOptions.Forms}.

            Examples:
              cockpit meter file:pass.sigmf-meta
              cockpit meter "file:pass.cu8?format=cu8&rate=3000000&center=1701300000" --format csv --start 2026-11-25T12:00:00Z
              cockpit meter file:pass.wav --picture pass.png
              cockpit meter "file:now.wav?from=end"
              receive-program | cockpit meter "stdin:?format=ci16&rate=3000000"
              cockpit meter "tcp://127.0.0.1:5020?format=cu8&rate=2400000"
            """)
        {
            it._address, it._format, it._start, it._follow, it._for, it._picture, it._channel, it._noLock,
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        int channel = parsed.GetValue(_channel);
        if (channel is < 1 or > MinorFrame.Channels)
        {
            await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"--channel {channel}: give a channel from 1 to {MinorFrame.Channels}"));
            return CommandRoot.WrongInput;
        }

        if (!SampleSources.Open(parsed.GetRequiredValue(_address), parsed.GetValue(_follow), _clock, new WatcherLines(complaints), "ADDRESS").Try(out ISampleSource? source, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        await using (source)
        {
            QuickLook? look = parsed.GetValue(_picture) is null ? null : new QuickLook(channel - 1);
            using Interruption interruption = new(cancellation);
            await MeasureAsync(parsed, source, look, interruption.Token);
            int written = look is null || parsed.GetValue(_picture) is not { } file ? 0 : WritePicture(look, file, complaints);
            return written != 0 ? written : interruption.ExitCode;
        }
    }

    private async Task MeasureAsync(ParseResult parsed, ISampleSource source, QuickLook? look, CancellationToken cancellation)
    {
        SampleLayout layout = source.Layout;
        double most = parsed.GetValue(_for)?.TotalSeconds ?? double.MaxValue;
        double? whole = source.Progress is { } bytes ? Math.Min(bytes.Whole / layout.BytesPerSecond, most) : most < double.MaxValue ? most : null;
        SignalMeter meter = new(layout.SampleRate, layout.Format, parsed.GetValue(_noLock) ? [] : FrameLocks.For(layout.SampleRate), layout.Exchanged);
        IMeterOutput output = Output(parsed, source, meter, look, whole);
        ProgressBar progress = Console.IsOutputRedirected && source.Progress is not null
            ? ProgressBar.OnTerminal(parsed.InvocationConfiguration.Error, _clock, (int)Math.Ceiling(whole ?? 0), "s")
            : new ProgressBar(null, _clock, 0, "");
        output.Begin();
        try
        {
            byte[] buffer = new byte[BufferBytes];
            while (output.Samples < most * layout.SampleRate && await source.ReadAsync(buffer, cancellation) is { Bytes: > 0 } read)
            {
                if (read.Missing != 0)
                {
                    meter.Skip(Math.Max(read.Missing, 0));
                }

                meter.Take(buffer.AsSpan(0, read.Bytes), output);
                progress.Show((int)Math.Min(output.Samples / layout.SampleRate, int.MaxValue));
            }
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            // Ctrl-C: the rows so far are whole.
        }
        finally
        {
            progress.Clear();
            meter.Finish(output);
            output.Finish(meter);
        }
    }

    /// <summary>A display where a terminal shows it and nothing was said of rows, else rows.</summary>
    private IMeterOutput Output(ParseResult parsed, ISampleSource source, SignalMeter meter, QuickLook? look, double? whole)
    {
        SampleLayout layout = source.Layout;
        DateTimeOffset start = parsed.GetValue(_start) ?? layout.Start ?? (source.Progress is null ? _clock.GetUtcNow() : DateTimeOffset.UnixEpoch);
        TextWriter output = parsed.InvocationConfiguration.Output;
        bool onTerminal = CleanWriter.TerminalBehind(output) is OutputWriter { Behind: var behind } && (behind is SevenBitWriter || ReferenceEquals(behind, Console.Out)) && !Console.IsOutputRedirected;
        if (!onTerminal || parsed.GetResult(_format) is { Implicit: false })
        {
            OutputRows rows = new(output, parsed.GetValue(_format), MeterRows.Columns);
            return new MeterPrinter(rows, start, layout.SampleRate, look, holdLast: source.Progress is not null);
        }

        string samples = string.Create(CultureInfo.InvariantCulture, $"{layout.SampleRate / 1e6:0.000} Msps {SampleFormatText.NameOf(layout.Format)}");
        DrawingSigns signs = DrawingSigns.OfTerminal;
        return new MeterDisplay(
            CleanWriter.TerminalBehind(output), () => (Console.WindowWidth, Console.WindowHeight), signs, parsed.GetRequiredValue(_address), samples, start, whole, look, _clock)
        {
            Meter = meter,
        };
    }

    private static int WritePicture(QuickLook look, string path, TextWriter complaints)
    {
        if (look.Lines == 0)
        {
            complaints.WriteLine($"{path}: no frame was locked, so there is no picture");
            return CommandRoot.Failed;
        }

        try
        {
            QuickLookFile.Write(path, look);
            return 0;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            complaints.WriteLine($"{path} cannot be written ({FileWords.Of(e)}); give another file");
            return CommandRoot.Failed;
        }
    }
}
