using System.Runtime.InteropServices;
using Cockpit.Screen.Keys;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Lines on standard output in place of the screen; ends on SIGINT and SIGTERM, and on SIGHUP where wanted.</summary>
/// <param name="output">Where the lines go.</param>
/// <param name="endOnHangUp">Whether a terminal that goes away ends it.</param>
public sealed class PlainFront(TextWriter output, bool endOnHangUp = true) : ISessionFront
{
    private readonly PlainLines _lines = new(output);
    private const int NotAsked = int.MinValue;
    private readonly ManualResetEventSlim _stopped = new();
    private int _code = NotAsked;
    private volatile bool _running;

    /// <inheritdoc/>
    public Action<KeyAction>? KeyPressed { get; set; }

    /// <inheritdoc/>
    public Action<long>? Painted { get; set; }

    /// <inheritdoc/>
    public Action<string>? Failed { get; set; }

    /// <inheritdoc/>
    /// <remarks>Nothing is said before it runs: whoever reads the first line may count on it that the session is on the disk and signals are answered.</remarks>
    public void Show(Snapshot snapshot)
    {
        if (!_running)
        {
            return;
        }

        _lines.Show(snapshot);
        Painted?.Invoke(snapshot.Sequence);
    }

    /// <summary>Nothing: the review is printed when the session ends, and so read once.</summary>
    public void ShowReview(SessionReview review)
    {
    }

    /// <inheritdoc/>
    public void ShowPairing(string? address, bool asked)
    {
        if (address is not null)
        {
            PairingLines.Print(address, output);
        }
    }

    /// <inheritdoc/>
    public void Bell() => CleanWriter.Ring(output);

    /// <inheritdoc/>
    public void Stop(int exitCode)
    {
        if (Interlocked.CompareExchange(ref _code, exitCode, NotAsked) == NotAsked)
        {
            _stopped.Set();
        }
    }

    /// <inheritdoc/>
    public int Run(TimeSpan? atMost, CancellationToken cancellation)
    {
        using PosixSignalRegistration interrupt = On(PosixSignal.SIGINT, 130);
        using PosixSignalRegistration terminate = On(PosixSignal.SIGTERM, 143);
        using PosixSignalRegistration? hangUp = endOnHangUp ? On(PosixSignal.SIGHUP, SessionRun.TerminalGone) : null;
        _running = true;
        try
        {
            _stopped.Wait(atMost ?? Timeout.InfiniteTimeSpan, cancellation);
        }
        catch (OperationCanceledException)
        {
            Stop(Commands.CommandRoot.Failed);
        }

        int code = Volatile.Read(ref _code);
        return code == NotAsked ? 0 : code;
    }

    /// <inheritdoc/>
    public void Dispose() => _stopped.Dispose();

    private PosixSignalRegistration On(PosixSignal signal, int code) => PosixSignalRegistration.Create(signal, context =>
    {
        context.Cancel = true;
        Stop(code);
    });
}
