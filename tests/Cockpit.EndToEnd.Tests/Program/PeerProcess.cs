using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>A program of others that a test talks to; it ends, with all that it started, when the test does.</summary>
internal sealed class PeerProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);
    private readonly Process _process;

    public PeerProcess(string program, params string[] words)
    {
        _process = Process.Start(new ProcessStartInfo(program, words) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true })
            ?? throw new InvalidOperationException($"{program} did not start");
        _process.OutputDataReceived += (_, _) => { };
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    /// <summary>A port of TCP and UDP that nobody has.</summary>
    public static int FreePort()
    {
        using TcpListener probe = new(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    /// <summary>Waits until a TCP port of it is open.</summary>
    public async Task WhenListeningAsync(int port)
    {
        for (long begun = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(begun) < Patience;)
        {
            using TcpClient probe = new();
            try
            {
                await probe.ConnectAsync(IPAddress.Loopback, port, CancellationToken.None);
                return;
            }
            catch (SocketException)
            {
                await Task.Delay(100, CancellationToken.None);
            }
        }

        throw new InvalidOperationException($"{_process.StartInfo.FileName} did not open port {port}");
    }

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }
}
