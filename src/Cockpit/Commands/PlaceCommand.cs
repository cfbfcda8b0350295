using System.CommandLine;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit place: where a receiver of navigation satellites says that this is, and what its time says of this computer's clock.</summary>
public sealed class PlaceCommand
{
    private static readonly TimeSpan Usual = TimeSpan.FromSeconds(30);

    private readonly Argument<string> _address = new("address") { HelpName = "ADDRESS", Description = $"Where the receiver is heard: {PlaceAddress.Forms}" };
    private readonly Option<TimeSpan?> _for = CommonOptions.Value("--for", "SPAN", "How long to listen, like 2m; 30s where missing", SpanText.Read);
    private readonly TimeProvider _clock;

    private PlaceCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    public static Command Create(TimeProvider clock)
    {
        PlaceCommand it = new(clock);
        Command command = new(
            "place",
            """
            Show where a receiver of navigation satellites says that this is, once a second, and at the end the --station to give, from the
            middle one of all places, and how far this computer's clock is off. The exit code is 1 where no place came.

            Examples:
              cockpit place gpsd://
              cockpit place "serial:/dev/ttyUSB0?baud=4800" --for 2m
              cockpit place udp://:10110
            """)
        {
            it._address, it._for, AddCommands.Place(),
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter output = parsed.InvocationConfiguration.Output;
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        PlaceAddress address = new(parsed.GetRequiredValue(_address));
        using IPort? port = address.MakePort("ADDRESS", _clock, out ParseError? error);
        string? refusal = error?.ToString() ?? Refusal(port);
        if (refusal is not null || port is null)
        {
            await complaints.WriteLineAsync(refusal);
            return CommandRoot.WrongInput;
        }

        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using ITimer limit = _clock.CreateTimer(_ => end.Cancel(), null, parsed.GetValue(_for) ?? Usual, Timeout.InfiniteTimeSpan);
        PlacePrinter printer = new(output, complaints, _clock);
        try
        {
            await port.RunAsync(new LineListener(address.MakeGrammar(), "receiver", printer), end.Token);
        }
        catch (OperationCanceledException) when (end.IsCancellationRequested)
        {
            // The time is over, or Ctrl-C: what came so far counts.
        }

        foreach (string line in printer.End())
        {
            await output.WriteLineAsync(line);
        }

        return printer.Places > 0 ? 0 : CommandRoot.Failed;
    }

    private static string? Refusal(IPort? port)
    {
        try
        {
            port?.Open();
            return null;
        }
        catch (PortException refusal)
        {
            return $"ADDRESS: {refusal.Message}";
        }
    }
}
