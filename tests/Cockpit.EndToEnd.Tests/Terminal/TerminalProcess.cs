using System.Diagnostics;
using System.Text;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>The program in a terminal of its own, made by script(1) of util-linux, which also passes the exit code on.</summary>
internal sealed class TerminalProcess : IDisposable
{
    private readonly DirectoryInfo _home = Directory.CreateTempSubdirectory("cockpit-terminal-");
    private readonly StringBuilder _seen = new();
    private readonly Process _script;
    private readonly Task _reading;

    /// <summary>Starts it.</summary>
    /// <param name="environment">Variables of the program, as env(1) takes them.</param>
    /// <param name="columns">Columns of the terminal.</param>
    /// <param name="rows">Rows of the terminal.</param>
    /// <param name="words">What the program is asked; nothing = the demo.</param>
    public TerminalProcess(string environment = "TERM=xterm-256color", int columns = 100, int rows = 30, params string[] words)
    {
        Screen = new VirtualTerminal(columns, rows);
        string program = string.Join(' ', ProgramUnderTest.Words.Concat(Silent(words)).Select(word => $"'{word}'"));
        ProcessStartInfo info = new("script")
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            WorkingDirectory = _home.FullName,
            StandardOutputEncoding = Encoding.UTF8,
        };
        info.ArgumentList.Add("-qefc");
        info.ArgumentList.Add($"stty cols {columns} rows {rows}; echo $$ > pid; exec env -u NO_COLOR {environment} {program}");
        info.ArgumentList.Add("/dev/null");
        info.Environment["HOME"] = _home.FullName;
        info.Environment["LANG"] = "C.UTF-8";
        info.Environment.Remove("LC_ALL");
        info.Environment.Remove("LC_CTYPE");
        info.Environment["XDG_CONFIG_HOME"] = _home.FullName;
        info.Environment["XDG_DATA_HOME"] = _home.FullName;
        info.Environment.Remove("DisableRealDriverIO");
        _script = Process.Start(info) ?? throw new InvalidOperationException("script did not start");
        _reading = ReadAsync();
    }

    // These make no sound that could be switched off.
    private static IEnumerable<string> Silent(string[] words) => words is ["meter" or "settings" or "skyline", ..] ? words : words.Append("--sound").Append("off");

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

    /// <summary>What the terminal shows; read it under <see cref="Look"/>.</summary>
    private VirtualTerminal Screen { get; }

    /// <summary>Reads something from what is shown now.</summary>
    public T Look<T>(Func<VirtualTerminal, T> read)
    {
        lock (_seen)
        {
            return read(Screen);
        }
    }

    /// <summary>Waits until the terminal got a text.</summary>
    public Task UntilAsync(string text) => UntilAsync(() => Seen.Contains(text, StringComparison.Ordinal), text);

    /// <summary>Waits until something is so.</summary>
    public async Task UntilAsync(Func<bool> isSo, string what)
    {
        long start = Stopwatch.GetTimestamp();
        while (!isSo())
        {
            Assert.False(_reading.IsCompleted, $"The program ended before \"{what}\" came: {Seen}");
            Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(30), $"\"{what}\" did not come:\n{Look(screen => screen.Text)}");
            await Task.Delay(30);
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
        // The shell has one built in; the program of that name is not on every machine.
        using Process kill = Process.Start("sh", ["-c", $"kill -s {name} {pid}"]);
        await kill.WaitForExitAsync();
    }

    /// <summary>The state of the program's process as the system gives it: T = stopped; null when it is gone.</summary>
    public async Task<char?> ProcessStateAsync()
    {
        string pid = (await File.ReadAllTextAsync(Path.Combine(_home.FullName, "pid"))).Trim();
        string path = $"/proc/{pid}/stat";
        if (!File.Exists(path))
        {
            return null;
        }

        string line = await File.ReadAllTextAsync(path);
        return line[line.LastIndexOf(')') + 2];
    }

    /// <summary>Takes the terminal away, as a window does that is closed.</summary>
    public void Unplug() => _script.Kill();

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
                Screen.Write(buffer.AsSpan(0, count));
            }
        }
    }
}
