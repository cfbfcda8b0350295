using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>The program with a phone asked for, started as a user starts it, on loopback.</summary>
internal sealed partial class PhoneSession : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);
    private readonly CockpitProcess _home;
    private readonly bool _ownsHome;
    private readonly Process _process;
    private readonly ConcurrentQueue<string> _lines = new();
    private readonly Task _reading;

    private PhoneSession(CockpitProcess home, bool ownsHome, Process process)
    {
        (_home, _ownsHome, _process) = (home, ownsHome, process);
        _reading = Task.WhenAll(ReadAsync(process.StandardOutput), ReadAsync(process.StandardError));
    }

    /// <summary>The address that the code leads to.</summary>
    public Uri Address { get; private set; } = new("about:blank");

    /// <summary>What the program has said so far.</summary>
    public IReadOnlyCollection<string> Lines => _lines;

    /// <summary>Starts it and waits for the address.</summary>
    /// <param name="words">The words after the program's name.</param>
    /// <param name="home">Whose files it uses; null = one of its own, which goes with it.</param>
    public static async Task<PhoneSession> StartAsync(Func<CockpitProcess, string[]> words, CockpitProcess? home = null)
    {
        CockpitProcess own = home ?? new CockpitProcess();
        PhoneSession session = new(own, home is null, own.Start(words(own)));
        try
        {
            session.Address = new Uri(Url().Match(await session.SaidAsync(line => Url().IsMatch(line))).Value);
            return session;
        }
        catch
        {
            await session.DisposeAsync();
            throw;
        }
    }

    /// <summary>In the middle of a pass on which the dish has to go right and up, three times as fast as in truth.</summary>
    public static string[] Climbing(CockpitProcess home, params string[] more) =>
    [
        "live", "--elements", CockpitProcess.Elements, "--satellite", "GREYWHIN 2", "--station", "47.8,11.2,520", "--at", "2026-11-26T08:14:10Z", "--speed", "3",
        "--mount", "free", "--sessions", home.Sessions, "--sound", "off", "--plain", .. more,
    ];

    /// <summary>Waits for a line.</summary>
    public async Task<string> SaidAsync(Func<string, bool> isIt)
    {
        for (long begun = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(begun) < Patience; await Task.Delay(20))
        {
            if (_lines.FirstOrDefault(isIt) is { } line)
            {
                return line;
            }
        }

        throw new InvalidOperationException("the program did not say it; it said:\n" + string.Join('\n', _lines.TakeLast(30)));
    }

    /// <summary>How many lines it has said.</summary>
    public int Said => _lines.Count;

    /// <summary>Waits for a line with these words in it, among those that come from now on, or after so many.</summary>
    public async Task<string> SaysAsync(string words, int? after = null)
    {
        int before = after ?? _lines.Count;
        string said = "";
        await SaidAsync(_ => (said = _lines.Skip(before).FirstOrDefault(line => line.Contains(words, StringComparison.Ordinal)) ?? "").Length > 0);
        return said;
    }

    /// <summary>What stands in the journal, as far as it is written.</summary>
    public IReadOnlyList<Envelope> Journal()
    {
        string folder = Directory.GetDirectories(_home.Sessions).Order(StringComparer.Ordinal).Last();
        return Recording.ReadAll(folder).Try(out Recording? recording, out ParseError? error) ? recording.Envelopes : throw new InvalidOperationException(error.ToString());
    }

    /// <summary>Every file of the session and of the home, as text.</summary>
    public IEnumerable<(string Path, string Text)> Files() =>
        Directory.EnumerateFiles(_home.Folder, "*", SearchOption.AllDirectories).Select(path => (path, File.ReadAllText(path)));

    /// <summary>Ends it in order, as Ctrl+C does.</summary>
    public async Task EndAsync()
    {
        using Process ending = Process.Start("kill", ["-INT", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        await _process.WaitForExitAsync().WaitAsync(Patience);
        await _reading;
    }

    /// <summary>Ends it as kill -9 does.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync(CancellationToken.None);
        await _reading;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await KillAsync();
        }

        _process.Dispose();
        if (_ownsHome)
        {
            _home.Dispose();
        }
    }

    private async Task ReadAsync(StreamReader from)
    {
        while (await from.ReadLineAsync(CancellationToken.None) is { } line)
        {
            _lines.Enqueue(line);
        }
    }

    [GeneratedRegex("https://[0-9.:]+/[A-Z2-7]{16}/", RegexOptions.None, 1000)]
    private static partial Regex Url();
}
