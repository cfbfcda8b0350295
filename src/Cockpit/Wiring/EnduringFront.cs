using System.Runtime.InteropServices;
using Cockpit.Screen.Keys;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>A front that may be lost in the middle of a pass, and another that takes its place, so that the session goes on.</summary>
/// <remarks>A stop that comes between the two counts: one that was asked for after the first had begun to close, too.</remarks>
public sealed class EnduringFront : ISessionFront
{
    private const int NotAsked = int.MinValue;
    private readonly ISessionFront _first;
    private readonly Func<int, ISessionFront?> _after;
    private volatile ISessionFront _current;
    private int _stopCode = NotAsked;

    /// <summary>Joins the two.</summary>
    /// <param name="first">Faces the operator from the start; disposed with this front.</param>
    /// <param name="after">Asked when the first has ended, with its exit code: what takes its place; null = the session is over.</param>
    public EnduringFront(ISessionFront first, Func<int, ISessionFront?> after)
    {
        _first = first;
        _after = after;
        _current = first;
    }

    /// <inheritdoc/>
    public Action<KeyAction>? KeyPressed
    {
        get => _first.KeyPressed;
        set => _first.KeyPressed = value;
    }

    /// <inheritdoc/>
    public Action<long>? Painted
    {
        get => _first.Painted;
        set => _first.Painted = value;
    }

    /// <inheritdoc/>
    public Action<string>? Failed
    {
        get => _first.Failed;
        set => _first.Failed = value;
    }

    /// <inheritdoc/>
    public void Show(Snapshot snapshot) => _current.Show(snapshot);

    /// <inheritdoc/>
    public void ShowReview(SessionReview review) => _current.ShowReview(review);

    /// <inheritdoc/>
    public void ShowPairing(string? address, bool asked) => _current.ShowPairing(address, asked);

    /// <inheritdoc/>
    public void Bell() => _current.Bell();

    /// <inheritdoc/>
    public void Stop(int exitCode)
    {
        Interlocked.CompareExchange(ref _stopCode, exitCode, NotAsked);
        _current.Stop(exitCode);
    }

    /// <inheritdoc/>
    public int Run(TimeSpan? atMost, CancellationToken cancellation)
    {
        using PosixSignalRegistration interrupt = On(PosixSignal.SIGINT, 130);
        using PosixSignalRegistration quit = On(PosixSignal.SIGQUIT, 131);
        using PosixSignalRegistration terminate = On(PosixSignal.SIGTERM, 143);
        long start = TimeProvider.System.GetTimestamp();
        int code = _first.Run(atMost, cancellation);
        if (_after(code) is not { } next)
        {
            return code;
        }

        _current = next;
        int asked = Volatile.Read(ref _stopCode);
        if (asked != NotAsked)
        {
            next.Stop(asked);
        }

        TimeSpan? left = atMost - TimeProvider.System.GetElapsedTime(start);
        int later = next.Run(left < TimeSpan.Zero ? TimeSpan.Zero : left, cancellation);
        return later == 0 ? code : later;
    }

    /// <inheritdoc/>
    public void Dispose() => _first.Dispose();

    private PosixSignalRegistration On(PosixSignal signal, int code) => PosixSignalRegistration.Create(signal, context =>
    {
        context.Cancel = true;
        Stop(code);
    });
}
