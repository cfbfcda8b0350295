using System.Runtime.InteropServices;
using System.Text;

namespace Cockpit.Screen.Views;

/// <summary>Sees to it that the terminal is usable afterwards, whatever ends the program short of SIGKILL.</summary>
/// <remarks>
/// A signal asks the loop to stop, so that it closes the screen itself; the exit code is 128 + its number, as shells do.
/// A failure on another thread does the same; when the loop does not answer, the terminal is reset by force.
/// </remarks>
internal sealed class TerminalLife : IDisposable
{
    /// <summary>Exit code after a failure.</summary>
    public const int Failed = 1;

    /// <summary>Plain style, the page wiped, cursor at the top: what a terminal without a screen of its own for programs, like the Linux console, has to be left with.</summary>
    public const string Wiped = "\x1b[0m\x1b[H\x1b[2J";

    // Mouse tracking and bracketed paste off, page wiped, main screen, cursor on (xterm control sequences, "CSI ? Pm l/h").
    private const string Reset = "\x1b[?1003l\x1b[?1015l\x1b[?1006l\x1b[?2004l" + Wiped + "\x1b[?1049l\x1b[?25h";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1.5);

    private readonly List<PosixSignalRegistration> _signals = [];
    private readonly ManualResetEventSlim _closed = new();
    private readonly ManualResetEventSlim _never = new();
    private readonly TextWriter _complaints;
    private Exception? _failure;

    public TerminalLife(TextWriter complaints)
    {
        _complaints = complaints;
        foreach ((PosixSignal signal, int number) in new[] { (PosixSignal.SIGHUP, 1), (PosixSignal.SIGINT, 2), (PosixSignal.SIGQUIT, 3), (PosixSignal.SIGTERM, 15) })
        {
            _signals.Add(PosixSignalRegistration.Create(signal, context =>
            {
                context.Cancel = true;
                StopRequested?.Invoke(128 + number);
            }));
        }

        if (!OperatingSystem.IsWindows())
        {
            // Stopped, the program would neither guide nor record: the pass goes on, and the screen says so.
            _signals.Add(PosixSignalRegistration.Create(PosixSignal.SIGTSTP, context =>
            {
                context.Cancel = true;
                SuspendRefused?.Invoke();
            }));
            _signals.Add(PosixSignalRegistration.Create(PosixSignal.SIGCONT, _ => Continued?.Invoke()));
        }

        AppDomain.CurrentDomain.UnhandledException += OnUnhandled;
    }

    /// <summary>The loop must end with this exit code; raised on any thread.</summary>
    public Action<int>? StopRequested { get; set; }

    /// <summary>Somebody asked the program to stop for a while (SIGTSTP), and it does not; raised on any thread.</summary>
    public Action? SuspendRefused { get; set; }

    /// <summary>The program goes on after a stop that cannot be refused (SIGSTOP); raised on any thread.</summary>
    public Action? Continued { get; set; }

    /// <summary>Keeps a failure of the loop itself for the one sentence at the end.</summary>
    public void Report(Exception failure) => _failure ??= failure;

    /// <summary>The screen is closed: says what failed, if anything did.</summary>
    public void Dispose()
    {
        AppDomain.CurrentDomain.UnhandledException -= OnUnhandled;
        foreach (PosixSignalRegistration signal in _signals)
        {
            signal.Dispose();
        }

        if (_failure is { } failure)
        {
            _complaints.WriteLine($"The screen failed and is closed: {failure.Message.ReplaceLineEndings(" ")} ({failure.GetType().Name}).");
        }

        _closed.Set();
    }

    private void OnUnhandled(object sender, UnhandledExceptionEventArgs e)
    {
        if (e.ExceptionObject is Exception failure)
        {
            Report(failure);
        }

        StopRequested?.Invoke(Failed);
        if (_closed.Wait(Patience))
        {
            // The runtime aborts the process when this handler returns; leave the time for Main to return its exit code.
            _never.Wait(Patience);
            return;
        }

        ResetByForce();
    }

    private static void ResetByForce()
    {
        try
        {
            using FileStream terminal = File.OpenWrite("/dev/tty");
            terminal.Write(Encoding.ASCII.GetBytes(Reset));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Out.Write(Reset);
        }
    }
}
