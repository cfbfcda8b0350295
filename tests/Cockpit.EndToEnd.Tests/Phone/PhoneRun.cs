using System.Diagnostics;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>The program with --phone, started as a person starts it, and the address that it prints.</summary>
internal sealed class PhoneRun : IAsyncDisposable
{
    private readonly CockpitProcess _cockpit = new();
    private readonly List<string> _lines = [];
    private Process? _process;
    private Task _reading = Task.CompletedTask;

    /// <summary>The address to scan.</summary>
    public Uri Page { get; private set; } = new("https://127.0.0.1/");

    /// <summary>Its home, with what it keeps of the phone.</summary>
    public string Kept => Path.Combine(_cockpit.Folder, ".config", "cockpit", "phone");

    /// <summary>Everything it has printed so far.</summary>
    public string Output
    {
        get
        {
            lock (_lines)
            {
                return string.Join('\n', _lines);
            }
        }
    }

    public static async Task<PhoneRun> StartAsync(params string[] more)
    {
        PhoneRun run = new();
        await run.RestartAsync(["--phone", "127.0.0.1:0", .. more]);
        return run;
    }

    /// <summary>Starts the program, again where it ran before, in the same home.</summary>
    public async Task RestartAsync(params string[] more)
    {
        await EndAsync();
        int from = _lines.Count;
        _process = _cockpit.Start(_cockpit.Live(["--stop-after", "60s", .. more]));
        _ = _process.StandardError.ReadToEndAsync();
        _reading = ReadAsync(_process.StandardOutput);
        string line = await UntilAsync("phone https://", from);
        Page = new Uri(line["phone ".Length..].Trim());
    }

    /// <summary>Waits for a line that holds this.</summary>
    public async Task<string> UntilAsync(string words, int from = 0)
    {
        long start = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(20))
        {
            lock (_lines)
            {
                if (_lines.Skip(from).FirstOrDefault(line => line.Contains(words, StringComparison.Ordinal)) is { } found)
                {
                    return found;
                }
            }

            await Task.Delay(20);
        }

        throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"\"{words}\" was not printed; there was:\n{Output}"));
    }

    /// <summary>Ends the program in order and gives what it kept of its last session.</summary>
    public async Task<Recording> EndAsync()
    {
        if (_process is { } process)
        {
            using Process ending = Process.Start("kill", ["-INT", process.Id.ToString(CultureInfo.InvariantCulture)]);
            await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(20));
            await _reading;
            process.Dispose();
            _process = null;
            Recording.ReadAll(JournalFolder).Try(out Recording? recording, out ParseError? _);
            return recording ?? throw new InvalidOperationException("no journal");
        }

        return new Recording(null, [], []);
    }

    /// <summary>The journal of the last session as it stands on the disk.</summary>
    public string JournalText => File.ReadAllText(Path.Combine(JournalFolder, "session.jsonl"));

    public async ValueTask DisposeAsync()
    {
        if (_process is { HasExited: false } process)
        {
            process.Kill();
            await process.WaitForExitAsync();
        }

        _process?.Dispose();
        _cockpit.Dispose();
    }

    private string JournalFolder => Directory.GetDirectories(_cockpit.Sessions).OrderBy(Directory.GetCreationTimeUtc).Last();

    private async Task ReadAsync(StreamReader output)
    {
        while (await output.ReadLineAsync() is { } line)
        {
            lock (_lines)
            {
                _lines.Add(line);
            }
        }
    }
}
