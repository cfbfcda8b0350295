using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit meter: what is in samples, ten times a second.</summary>
public sealed class MeterCommand
{
    private const string File = "file:";

    private readonly Argument<string> _address = new("ADDRESS") { Description = "The samples: file:PATH, with ?format=...&rate=... where the file does not tell" };
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly Option<DateTimeOffset?> _start = CommonOptions.Value("--start", "UTC", "Time of the first sample, like 2026-11-25T12:00:00Z; else what the recording tells, else 1970", (text, source) => InstantText.Read(text, source));
    private readonly Option<bool> _noLock = new("--no-lock") { Description = "Measure only: look for no frames" };

    private MeterCommand()
    {
    }

    /// <summary>The command.</summary>
    public static Command Create()
    {
        MeterCommand it = new();
        Command command = new(
            "meter",
            $"""
            Measure samples of a receiver: one row each 100 ms with level, noise floor, SNR, carrier offset, clipping, kind of signal and frames.

            utc is the time of a row's first sample. level and noise are dB of full scale (1 for each component), noise in the whole band.
            snr is Es/N0 of the whole wave, also of what the band cuts off. lines_ok and lines_lost count from the first sample on.
            Options of the address: {SampleOptions.Forms}.

            Examples:
              cockpit meter file:pass.sigmf-meta
              cockpit meter "file:pass.cu8?format=cu8&rate=3000000&center=1701300000" --format csv --start 2026-11-25T12:00:00Z
              cockpit meter file:pass.wav --format json
            """)
        {
            it._address, it._format, it._start, it._noLock,
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string address = parsed.GetRequiredValue(_address);
        if (!SampleOptions.Split(address, "ADDRESS").Try(out (string Address, SampleOptions Options) parts, out ParseError? error)
            || !RecordingFile.Open(parts.Address.StartsWith(File, StringComparison.Ordinal) ? parts.Address[File.Length..] : parts.Address, parts.Options, "ADDRESS").Try(out RecordingFile? recording, out error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        using (recording)
        {
            SampleLayout layout = recording.Layout;
            DateTimeOffset start = parsed.GetValue(_start) ?? layout.Start ?? DateTimeOffset.UnixEpoch;
            OutputRows rows = new(parsed.InvocationConfiguration.Output, parsed.GetValue(_format), MeterRows.Columns);
            MeterPrinter printer = new(rows, start, layout.SampleRate);
            ImmutableArray<IFrameLock> locks = parsed.GetValue(_noLock) ? [] : FrameLocks.For(layout.SampleRate);
            SignalMeter meter = new(layout.SampleRate, layout.Format, locks);
            rows.Begin();
            using (Progress progress = new(recording.BytesNow, complaints))
            {
                byte[] buffer = new byte[1 << 18];
                while (!cancellation.IsCancellationRequested && recording.Read(buffer) is > 0 and int count)
                {
                    meter.Take(buffer.AsSpan(0, count), printer);
                    progress.Reached(recording.BytesRead);
                }
            }

            rows.End();
            return cancellation.IsCancellationRequested ? CommandRoot.Failed : 0;
        }
    }
}
