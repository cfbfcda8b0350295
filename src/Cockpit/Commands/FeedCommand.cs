using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit feed: what is understood of the lines of a receiver, while they come.</summary>
public sealed class FeedCommand
{
    private static readonly TimeSpan SilencePatience = TimeSpan.FromSeconds(5);

    private readonly Argument<string> _address = new("address") { HelpName = "ADDRESS", Description = $"Where the lines come from: {LineAddress.Forms}; ?columns=time,,level behind it names delimited columns" };
    private readonly Option<OutputFormat> _format = CommonOptions.Format();
    private readonly Option<TimeSpan?> _for = CommonOptions.Value("--for", "SPAN", "End after this time, like 30s; else with Ctrl-C, or where standard input ends", SpanText.Read);
    private readonly TimeProvider _clock;

    private FeedCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    public static Command Create(TimeProvider clock)
    {
        FeedCommand it = new(clock);
        Command command = new(
            "feed",
            """
            Show what is understood of each line that a receiver sends, and what not, and why: for connecting it at home, before the pass.

            Below each line stands what was read with its units and what the line calls it (=), why nothing was (x), or that it is nothing (-).
            The exit code is 1 where no line was understood.

            Examples:
              cockpit feed tcp://127.0.0.1:17640
              receive-program | cockpit feed -
              cockpit feed udp://:17640 --for 30s --format csv
              cockpit feed "tcp://127.0.0.1:17640?columns=time,,level,snr"
              cockpit feed http://127.0.0.1:8080/status.json
            """)
        {
            it._address, it._format, it._for,
        };
        command.SetAction(it.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        (IPort? port, SignalGrammar grammar, ParseError? error) = OpenPort(parsed.GetRequiredValue(_address));
        using (port)
        {
            if (port is null || error is not null)
            {
                await complaints.WriteLineAsync(error?.ToString());
                return CommandRoot.WrongInput;
            }

            using Interruption interruption = new(cancellation);
            int code = await FollowAsync(parsed, port, grammar, interruption.Token);
            return code != 0 ? code : interruption.ExitCode;
        }
    }

    private async Task<int> FollowAsync(ParseResult parsed, IPort port, SignalGrammar grammar, CancellationToken cancellation)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        FeedPrinter printer = new(parsed.InvocationConfiguration.Output, complaints, parsed.GetValue(_format), grammar, _clock)
        {
            WhenLost = port is StreamPort ? end.Cancel : null,
        };
        printer.Begin();
        using ITimer silence = _clock.CreateTimer(_ => TellSilence(printer, port), null, SilencePatience, Timeout.InfiniteTimeSpan);
        using ITimer? limit = parsed.GetValue(_for) is { } span ? _clock.CreateTimer(_ => end.Cancel(), null, span, Timeout.InfiniteTimeSpan) : null;
        try
        {
            await port.RunAsync(new LineListener(grammar, "line", printer), end.Token);
        }
        catch (OperationCanceledException) when (end.IsCancellationRequested)
        {
            // The time is over, the input has ended, or Ctrl-C: the rows so far are whole.
        }

        await complaints.WriteLineAsync(printer.End());
        return printer.Read > 0 ? 0 : CommandRoot.Failed;
    }

    private static void TellSilence(FeedPrinter printer, IPort port)
    {
        if (printer.Lines == 0)
        {
            printer.Tell(FormattableString.Invariant($"no line has come from {port.Where} for {SilencePatience.TotalSeconds:0} s; see that the other program sends, and to this address"));
        }
    }

    private static (IPort? Port, SignalGrammar Grammar, ParseError? Error) OpenPort(string address)
    {
        const string argument = "ADDRESS";
        SignalGrammar none = new();
        if (SampleAddress.IsOne(address))
        {
            return (null, none, new ParseError(argument, 0, 0, $"{Quoted.Of(address)} brings samples, not lines; see what is in them with cockpit meter and the same address"));
        }

        if (!LineAddress.Read(address, argument).Try(out LineAddress? where, out ParseError? error))
        {
            return (null, none, error);
        }

        IPort? port = where.MakePort(argument, TimeProvider.System, out error);
        try
        {
            port?.Open();
            return (port, where.MakeGrammar(), error);
        }
        catch (PortException refusal)
        {
            return (port, none, new ParseError(argument, 0, 0, refusal.Message));
        }
    }
}
