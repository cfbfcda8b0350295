using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Outlets;
using Cockpit.Devices.Ports;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say where a simulated sender sends, and until when.</summary>
/// <param name="command">The command, for the error.</param>
internal sealed class OutletOptions(string command)
{
    private readonly Option<string> _listen = new("--listen") { HelpName = "tcp://[HOST]:PORT", Description = "Be connected to, for live with tcp://127.0.0.1:PORT" };
    private readonly Option<string> _to = new("--to") { HelpName = "tcp://HOST:PORT|udp://[HOST]:PORT|file:PATH|-", Description = "Send there; - is standard output" };
    private readonly Option<TimeSpan?> _stopAfter = CommonOptions.Value("--stop-after", "SPAN", "End by itself after this real time, like 90s", SpanText.Read);

    /// <summary>Gives them to a command.</summary>
    /// <param name="to">The command.</param>
    public void AddTo(Command to)
    {
        foreach (Option option in new Option[] { _listen, _to, _stopAfter })
        {
            to.Options.Add(option);
        }
    }

    /// <summary>Where the lines go.</summary>
    public Parsed<IOutlet> Read(ParseResult parsed) => (parsed.GetValue(_listen), parsed.GetValue(_to)) switch
    {
        ({ } listen, null) => OutletAddresses.Listening(listen, "--listen"),
        (null, { } to) => OutletAddresses.Sending(to, "--to"),
        _ => new ParseError(command, 0, 0, "say where the lines go: either --listen tcp://:PORT or --to ADDRESS"),
    };

    /// <summary>Sends until Ctrl-C, or the time is up.</summary>
    /// <param name="sender">Not yet open.</param>
    /// <param name="words">Said once it stands.</param>
    /// <param name="parsed">The words.</param>
    /// <param name="clock">What waiting goes by.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>The exit code.</returns>
    public async Task<int> SendAsync(LineSender sender, string words, ParseResult parsed, TimeProvider clock, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        try
        {
            sender.Open();
        }
        catch (PortException failure)
        {
            await complaints.WriteLineAsync(failure.Message);
            return CommandRoot.WrongInput;
        }

        await complaints.WriteLineAsync(words);
        using CancellationTokenSource stop = parsed.GetValue(_stopAfter) is { } span ? new CancellationTokenSource(span, clock) : new CancellationTokenSource();
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop.Token, cancellation);
        try
        {
            await sender.RunAsync(either.Token);
        }
        catch (OperationCanceledException) when (either.IsCancellationRequested)
        {
            // Ctrl-C or the time is up: the wanted end.
        }
        catch (IOException failure)
        {
            await complaints.WriteLineAsync("nothing takes the lines any more: " + failure.Message);
            return CommandRoot.Failed;
        }

        await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{sender.Sent} lines sent"));
        return 0;
    }
}
