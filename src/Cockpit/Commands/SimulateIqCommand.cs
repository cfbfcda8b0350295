using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Checks.Signal;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Outlets;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit simulate iq: samples of a receiver, with a file that tells what is true of them.</summary>
public sealed class SimulateIqCommand
{
    private static readonly string[] Kinds = ["split-phase", "qpsk", "qpsk-fast", "carrier", "none"];

    private readonly Option<string> _to = new("--to") { HelpName = "FILE", Description = "Write there: NAME.sigmf-meta, NAME.wav, NAME.rf64, or bare samples like NAME.cu8" };
    private readonly Option<string> _listen = new("--listen") { HelpName = "tcp://[HOST]:PORT", Description = "Be connected to, and send in real time" };
    private readonly Option<bool> _pace = new("--pace") { Description = "Write the file as fast as a receiver would: it grows while it is read" };
    private readonly Option<string> _kind = new("--kind") { HelpName = string.Join('|', Kinds), Description = "What is sent", DefaultValueFactory = _ => "split-phase" };
    private readonly Option<SampleFormat?> _format = CommonOptions.Value("--format", "FORMAT", "How a sample is written; ci16 where missing, or as the ending says", SampleFormatText.Read);
    private readonly Option<double?> _rate = CommonOptions.Value("--rate", "RATE", "Samples a second, like 3Msps", SampleOptions.ReadRate);
    private readonly Option<double> _seconds = new("--seconds") { HelpName = "S", Description = "Length", DefaultValueFactory = _ => 10 };
    private readonly Option<string> _snr = new("--snr") { HelpName = "DB|T:DB,...", Description = "Es/N0, one value or over time", DefaultValueFactory = _ => "12" };
    private readonly Option<string> _doppler = new("--doppler") { HelpName = "HZ|T:HZ,...", Description = "Doppler, one value or over time", DefaultValueFactory = _ => "0" };
    private readonly Option<double> _clock = new("--clock-error") { HelpName = "PPM", Description = "How fast the receiver's clock is" };
    private readonly Option<string> _dropouts = new("--dropouts") { HelpName = "FROM-TO,...", Description = "Seconds without signal, like 4-5.5,8-9", DefaultValueFactory = _ => "" };
    private readonly Option<string> _interferer = new("--interferer") { HelpName = "HZ,WIDTH,DB", Description = "An unwanted signal; width 0 is a tone", DefaultValueFactory = _ => "" };
    private readonly Option<double> _fading = new("--fading") { HelpName = "DB", Description = "Depth of slow fading" };
    private readonly Option<double?> _dc = new("--dc") { HelpName = "DB", Description = "DC over the noise of the whole band" };
    private readonly Option<bool> _picture = new("--picture") { Description = "Scenes instead of chance in the Earth words" };
    private readonly Option<bool> _inverted = new("--inverted") { Description = "All bits the other way round" };
    private readonly Option<ulong> _seed = new("--seed") { HelpName = "N", Description = "Seed of bits and noise", DefaultValueFactory = _ => 1UL };
    private readonly Option<DateTimeOffset?> _at = CommonOptions.At();
    private readonly TimeProvider _time;

    private SimulateIqCommand(TimeProvider time) => _time = time;

    /// <summary>The command.</summary>
    public static Command Create(TimeProvider time)
    {
        SimulateIqCommand it = new(time);
        Command command = new(
            "iq",
            """
            Make samples of a receiver: noise, and in it a made-up signal with Doppler, clock error, fading, dropouts and interferers.
            Beside the file stands NAME.truth.json: for each 100 ms what is true, and where each frame begins.

            Examples:
              cockpit simulate iq --to pass.sigmf-meta --seconds 20 --snr 0:2,10:14,20:2 --doppler 0:30000,20:-30000 --picture
              cockpit simulate iq --to now.wav --pace --seconds 300 --dropouts 60-64
              cockpit simulate iq --listen tcp://:5020 --format cu8 --rate 2.4Msps
            """)
        {
            it._to, it._listen, it._pace, it._kind, it._format, it._rate, it._seconds, it._snr, it._doppler, it._clock, it._dropouts, it._interferer,
            it._fading, it._dc, it._picture, it._inverted, it._seed, it._at,
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        using Interruption interruption = new(cancellation);
        int code = await MakeAsync(parsed, interruption.Token);
        return code != 0 ? code : interruption.ExitCode;
    }

    private async Task<int> MakeAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!ReadScenario(parsed).Try(out IqScenario? scenario, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        DateTimeOffset start = parsed.GetValue(_at) ?? _time.GetUtcNow();
        try
        {
            if ((parsed.GetValue(_to), parsed.GetValue(_listen)) is ({ } file, null))
            {
                return await WriteAsync(file, scenario, start, parsed.GetValue(_pace), complaints, cancellation);
            }

            if ((parsed.GetValue(_to), parsed.GetValue(_listen)) is (null, { } listen))
            {
                return await SendAsync(listen, scenario, complaints, cancellation);
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            await complaints.WriteLineAsync($"the samples cannot be written: {FileWords.Of(failure)}; choose another file with --to");
            return CommandRoot.Failed;
        }

        await complaints.WriteLineAsync("simulate iq: say where the samples go: either --to FILE or --listen tcp://:PORT");
        return CommandRoot.WrongInput;
    }

    private async Task<int> WriteAsync(string path, IqScenario scenario, DateTimeOffset start, bool pace, TextWriter complaints, CancellationToken cancellation)
    {
        using SampleFile file = SampleFile.Create(path, new SampleLayout(scenario.Format, scenario.SampleRate, CentreHz: scenario.CentreHz, Start: start));
        IqRun run = new(scenario);
        var progress = ProgressBar.OnTerminal(complaints, _time, (int)Math.Ceiling(scenario.Seconds), "s");
        long began = _time.GetTimestamp();
        while (!cancellation.IsCancellationRequested && run.Next() is { Length: > 0 } bytes)
        {
            file.Write(bytes.Span);
            progress.Show((int)(run.Samples / scenario.SampleRate));
            if (pace)
            {
                file.Flush();
                await PauseAsync(run, began, cancellation);
            }
        }

        progress.Clear();
        file.Finish();
        await File.WriteAllTextAsync(SampleFile.StemOf(path) + ".truth.json", run.TruthJson(Path.GetFileName(SampleFile.StemOf(path)), Path.GetFileName(path), start), CancellationToken.None);
        await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{path}: {run.Samples} samples, {run.Samples / scenario.SampleRate:0.0} s"));
        return 0;
    }

    private async Task<int> SendAsync(string address, IqScenario scenario, TextWriter complaints, CancellationToken cancellation)
    {
        if (!OutletAddresses.Listening(address, "--listen").Try(out IOutlet? outlet, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        await using (outlet)
        {
            try
            {
                outlet.Appear();
            }
            catch (PortException failure)
            {
                await complaints.WriteLineAsync(failure.Message);
                return CommandRoot.WrongInput;
            }

            await complaints.WriteLineAsync($"samples at {outlet.Where}; Ctrl-C ends it");
            IqRun run = new(scenario);
            long began = _time.GetTimestamp();
            try
            {
                while (run.Next() is { Length: > 0 } bytes)
                {
                    await outlet.SendAsync(bytes, cancellation);
                    await PauseAsync(run, began, cancellation);
                }
            }
            catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
            {
                // Ctrl-C: the wanted end.
            }
        }

        return 0;
    }

    private async Task PauseAsync(IqRun run, long began, CancellationToken cancellation)
    {
        TimeSpan ahead = TimeSpan.FromSeconds(run.Samples / run.SampleRate) - _time.GetElapsedTime(began);
        if (ahead > TimeSpan.Zero)
        {
            try
            {
                await Task.Delay(ahead, _time, cancellation);
            }
            catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
            {
                // The caller looks at the token.
            }
        }
    }

    private Parsed<IqScenario> ReadScenario(ParseResult parsed)
    {
        string kind = parsed.GetValue(_kind) ?? "";
        double seconds = parsed.GetValue(_seconds);
        if (!Kinds.Contains(kind, StringComparer.Ordinal))
        {
            return new ParseError("--kind", 0, 0, $"{Quoted.Of(kind)} is not a kind; choose {string.Join(", ", Kinds)}");
        }

        if (seconds is not (>= 0.1 and <= 3600))
        {
            return new ParseError("--seconds", 0, 0, "give a length from 0.1 to 3600 seconds");
        }

        if (!Profile(parsed.GetValue(_snr), "--snr", 60).Try(out ImmutableArray<ProfilePoint> snr, out ParseError? error)
            || !Profile(parsed.GetValue(_doppler), "--doppler", 1e6).Try(out ImmutableArray<ProfilePoint> doppler, out error)
            || !Dropouts(parsed.GetValue(_dropouts) ?? "").Try(out ImmutableArray<Dropout> dropouts, out error)
            || !Interferers(parsed.GetValue(_interferer) ?? "").Try(out ImmutableArray<Interferer> interferers, out error))
        {
            return error;
        }

        return new IqScenario
        {
            Kind = kind switch { "split-phase" => SignalKind.SplitPhase, "carrier" => SignalKind.Carrier, "none" => SignalKind.None, _ => SignalKind.Qpsk },
            QpskRate = kind is "qpsk-fast" ? SpectrumTemplate.FastQpskRate : SpectrumTemplate.QpskRate,
            SampleRate = parsed.GetValue(_rate) ?? (kind.StartsWith("qpsk", StringComparison.Ordinal) ? 6_000_000 : 3_000_000),
            Format = parsed.GetValue(_format) ?? (parsed.GetValue(_to) is { } path ? SampleFormatText.OfEnding(path) : null) ?? SampleFormat.Ci16Le,
            Seconds = seconds,
            SnrDb = snr,
            DopplerHz = doppler,
            ClockPpm = Math.Clamp(parsed.GetValue(_clock), -200, 200),
            Dropouts = dropouts,
            Interferers = interferers,
            FadingDb = Math.Clamp(parsed.GetValue(_fading), 0, 60),
            DcDb = parsed.GetValue(_dc),
            Picture = parsed.GetValue(_picture),
            Inverted = parsed.GetValue(_inverted),
            Seed = parsed.GetValue(_seed),
        };
    }

    private static Parsed<ImmutableArray<ProfilePoint>> Profile(string? text, string option, double most)
    {
        List<ProfilePoint> points = [];
        foreach (string item in (text ?? "").Split(','))
        {
            string[] parts = item.Split(':');
            double t = 0;
            if (parts.Length > 2 || !Number(parts[^1], out double value) || Math.Abs(value) > most || (parts.Length == 2 && !Number(parts[0], out t)) || (points.Count > 0 && t <= points[^1].Seconds))
            {
                return new ParseError(option, 0, 0, $"{Quoted.Of(item)} is neither a value nor time:value with times that rise; write it like 12 or 0:2,10:14");
            }

            points.Add(new ProfilePoint(t, value));
        }

        return points.ToImmutableArray();
    }

    private static Parsed<ImmutableArray<Dropout>> Dropouts(string text)
    {
        List<Dropout> gaps = [];
        foreach (string item in text.Split(',', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] parts = item.Split('-');
            if (parts.Length != 2 || !Number(parts[0], out double from) || !Number(parts[1], out double to) || to <= from)
            {
                return new ParseError("--dropouts", 0, 0, $"{Quoted.Of(item)} is no time without signal; write it like 4-5.5");
            }

            gaps.Add(new Dropout(from, to));
        }

        return gaps.ToImmutableArray();
    }

    private static Parsed<ImmutableArray<Interferer>> Interferers(string text)
    {
        if (text.Length == 0)
        {
            return ImmutableArray<Interferer>.Empty;
        }

        string[] parts = text.Split(',');
        return parts.Length == 3 && Number(parts[0], out double hz) && Number(parts[1], out double width) && Number(parts[2], out double db) && width is >= 0 and <= 1e7 && db <= 80
            ? ImmutableArray.Create(new Interferer(hz, width, db))
            : new ParseError("--interferer", 0, 0, $"{Quoted.Of(text)} is no interferer; write its middle in hertz, its width in hertz and dB over the noise in 665.4 kHz, like 700000,200000,10");
    }

    private static bool Number(string text, out double value) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
