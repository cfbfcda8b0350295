using System.Runtime.InteropServices;

namespace Cockpit.Wiring;

/// <summary>Keeps the program alive on Windows until its session is whole after the window was closed: there it is ended as soon as that was answered.</summary>
/// <remarks>Windows waits five seconds for the answer (console documentation, "HandlerRoutine callback function"). Elsewhere a lost terminal ends nothing.</remarks>
internal sealed class WindowClosing : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(4.5);

    private readonly ManualResetEventSlim _ended = new();
    private readonly PosixSignalRegistration? _closed;

    private WindowClosing()
    {
        if (OperatingSystem.IsWindows())
        {
            _closed = PosixSignalRegistration.Create(PosixSignal.SIGHUP, _ => Answer());
        }
    }

    /// <summary>Begins to watch.</summary>
    public static WindowClosing Watch() => new();

    /// <summary>Asks the session to end; returns at once.</summary>
    public Action? Stop { get; set; }

    /// <summary>The window was closed: asks for the end, and returns when it has come, or the system would wait no longer.</summary>
    /// <returns>Whether it has come.</returns>
    internal bool Answer()
    {
        Stop?.Invoke();
        return _ended.Wait(Patience);
    }

    /// <summary>The session is whole. The event itself is left to whoever waits for it.</summary>
    public void Dispose()
    {
        _ended.Set();
        _closed?.Dispose();
    }
}
