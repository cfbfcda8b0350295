using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The built program as a process of its own; killed, not asked, when the test is over.</summary>
internal sealed class ProgramRun : IDisposable
{
    private readonly Process _process;

    private ProgramRun(Process process) => _process = process;

    /// <summary>Its results.</summary>
    public StreamReader Output => _process.StandardOutput;

    /// <summary>Starts it.</summary>
    public static ProgramRun Start(params string[] words)
    {
        Process process = Process.Start(ProgramUnderTest.Start(words)) ?? throw new InvalidOperationException("the program did not start");

        // What nobody reads must not stop the program.
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        return new ProgramRun(process);
    }

    /// <summary>Ends it as kill -9 does and waits until it is gone.</summary>
    public void Kill()
    {
        _process.Kill();
        _process.WaitForExit();
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            Kill();
        }

        _process.Dispose();
    }
}
