using System.Diagnostics;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>The demo in a terminal of its own, made by script(1) of util-linux, which also passes the exit code on.</summary>
internal sealed class TerminalProcess : IDisposable
{
    private readonly DirectoryInfo _home = Directory.CreateTempSubdirectory("cockpit-terminal-");
    private readonly StringBuilder _seen = new();
    private readonly Process _script;
    private readonly Task _reading;

    public TerminalProcess(string environment = "TERM=xterm-256color")
    {
        string host = Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet";
        string program = Path.Combine(AppContext.BaseDirectory, "cockpit.dll");
        ProcessStartInfo info = new("script")
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            WorkingDirectory = _home.FullName,
            StandardOutputEncoding = Encoding.UTF8,
        };
        info.ArgumentList.Add("-qefc");
        info.ArgumentList.Add($"stty cols 100 rows 30; echo $$ > pid; exec env -u NO_COLOR {environment} '{host}' '{program}' --sound off");
        info.ArgumentList.Add("/dev/null");
        info.Environment["HOME"] = _home.FullName;
        info.Environment["XDG_DATA_HOME"] = _home.FullName;
        info.Environment.Remove("DisableRealDriverIO");
        _script = Process.Start(info) ?? throw new InvalidOperationException("script did not start");
        _reading = ReadAsync();
    }

    /// <summary>Everything the terminal got so far.</summary>
    public string Seen
    {
        get
        {
            lock (_seen)
            {
                return _seen.ToString();
            }
        }
    }

    /// <summary>Waits until the terminal got a text.</summary>
    public async Task UntilAsync(string text)
    {
        long start = Stopwatch.GetTimestamp();
        while (!Seen.Contains(text, StringComparison.Ordinal))
        {
            Assert.False(_reading.IsCompleted, $"The program ended before \"{text}\" came: {Seen}");
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(30), $"\"{text}\" did not come.");
            await Task.Delay(50);
        }
    }

    public async Task TypeAsync(string keys)
    {
        await _script.StandardInput.WriteAsync(keys);
        await _script.StandardInput.FlushAsync();
    }

    public async Task SignalAsync(string name)
    {
        string pid = (await File.ReadAllTextAsync(Path.Combine(_home.FullName, "pid"))).Trim();
        using Process kill = Process.Start("kill", ["-s", name, pid]);
        await kill.WaitForExitAsync();
    }

    /// <summary>Waits for the end.</summary>
    public async Task<int> ExitCodeAsync()
    {
        await _script.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        await _reading.WaitAsync(TimeSpan.FromSeconds(10));
        return _script.ExitCode;
    }

    public void Dispose()
    {
        if (!_script.HasExited)
        {
            _script.Kill(entireProcessTree: true);
        }

        _script.Dispose();
        _home.Delete(recursive: true);
    }

    private async Task ReadAsync()
    {
        char[] buffer = new char[4096];
        int count;
        while ((count = await _script.StandardOutput.ReadAsync(buffer)) > 0)
        {
            lock (_seen)
            {
                _seen.Append(buffer, 0, count);
            }
        }
    }
}
