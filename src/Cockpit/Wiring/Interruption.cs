using System.Runtime.InteropServices;

namespace Cockpit.Wiring;

/// <summary>Ctrl-C and a request to end, as a token: what is under way is finished and closed, and the exit code says by what it ended.</summary>
public sealed class Interruption : IDisposable
{
    private readonly CancellationTokenSource _source;
    private readonly PosixSignalRegistration _interrupt;
    private readonly PosixSignalRegistration _terminate;
    private int _exitCode;

    /// <summary>Listens from now on.</summary>
    /// <param name="also">Ends it too.</param>
    public Interruption(CancellationToken also)
    {
        _source = CancellationTokenSource.CreateLinkedTokenSource(also);
        _interrupt = On(PosixSignal.SIGINT, 130);
        _terminate = On(PosixSignal.SIGTERM, 143);
    }

    /// <summary>Cancelled when it is time to end.</summary>
    public CancellationToken Token => _source.Token;

    /// <summary>0, or 128 and the number of the signal.</summary>
    public int ExitCode => _exitCode;

    /// <inheritdoc/>
    public void Dispose()
    {
        _interrupt.Dispose();
        _terminate.Dispose();
        _source.Dispose();
    }

    private PosixSignalRegistration On(PosixSignal signal, int code) => PosixSignalRegistration.Create(signal, context =>
    {
        // A second one ends the program at once.
        context.Cancel = Interlocked.CompareExchange(ref _exitCode, code, 0) == 0;
        _source.Cancel();
    });
}
