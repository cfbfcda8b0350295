using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>A person at the screen: types keys, waits for words, looks at cells. The program runs in a terminal of its own.</summary>
/// <remarks>
/// The pass is that of BRACKWING 5 over the station of the reference tables on 2026-11-26: rise 17:46:50, culmination at 90 degrees
/// 17:53:29, set 18:00:05 UTC (tests/data/reference/03_passes).
/// </remarks>
internal sealed class Operator : IAsyncDisposable
{
    private static readonly Dictionary<string, string> Keys = new(StringComparer.Ordinal)
    {
        ["Space"] = " ",
        ["Enter"] = "\r",
        ["Esc"] = "\x1b",
        ["Ctrl-C"] = "\x03",
        ["Ctrl-Z"] = "\x1a",
        ["Left"] = "\x1b[D",
        ["Right"] = "\x1b[C",
        ["Up"] = "\x1b[A",
        ["Down"] = "\x1b[B",
        ["Home"] = "\x1b[H",
        ["End"] = "\x1b[F",
    };

    private readonly TerminalProcess _terminal;

    private Operator(int columns, int rows, string[] words) => _terminal = new TerminalProcess("TERM=xterm-256color", columns, rows, words);

    /// <summary>The whole screen as text.</summary>
    public string Screen => _terminal.Look(screen => screen.Text);

    /// <summary>Every byte that the terminal got.</summary>
    public string Bytes => _terminal.Seen;

    /// <summary>Characters outside of sequences that a terminal would have obeyed.</summary>
    public IReadOnlyList<string> Harmful => _terminal.Look(screen => screen.Harmful.ToArray());

    /// <summary>Flies the pass from an instant on, so many times as fast as real.</summary>
    public static Operator Flies(string from, int speed, string sessions, params string[] more) => At(
        100, 30, ["live", "--elements", CockpitProcess.Elements, "--satellite", "BRACKWING 5", "--station", "47.8,11.2,520", "--at", $"2026-11-26T{from}Z", "--speed", $"{speed}", "--sessions", sessions, .. more]);

    /// <summary>Sits down at a terminal of a size and asks for something.</summary>
    public static Operator At(int columns, int rows, params string[] words) => new(columns, rows, words);

    /// <summary>Waits until words stand on the screen.</summary>
    public Task SeesAsync(string words) => _terminal.UntilAsync(() => Screen.Contains(words, StringComparison.Ordinal), words);

    /// <summary>Waits until words stand on the screen no more.</summary>
    public Task SeesNoMoreAsync(string words) => _terminal.UntilAsync(() => !Screen.Contains(words, StringComparison.Ordinal), $"the end of {words}");

    /// <summary>Types a key, by its name or by itself.</summary>
    public Task PressesAsync(string key) => _terminal.TypeAsync(Keys.GetValueOrDefault(key, key));

    /// <summary>The cell where words begin.</summary>
    public ShownCell CellOf(string words) => _terminal.Look(screen =>
    {
        string[] rows = screen.Text.Split('\n');
        int row = Array.FindIndex(rows, text => text.Contains(words, StringComparison.Ordinal));
        Assert.True(row >= 0, $"\"{words}\" is not on the screen:\n{screen.Text}");
        return screen[rows[row].IndexOf(words, StringComparison.Ordinal), row];
    });

    /// <summary>The column and row at which a text of one cell stands first.</summary>
    public (ShownCell Cell, ShownCell Next) Pair(string text) => _terminal.Look(screen =>
    {
        int rows = screen.Text.Split('\n').Length;
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < 99; column++)
            {
                if (string.Equals(screen[column, row].Text, text, StringComparison.Ordinal))
                {
                    return (screen[column, row], screen[column + 1, row]);
                }
            }
        }

        throw new InvalidOperationException($"{text} is in no cell:\n{screen.Text}");
    });

    /// <summary>Something that comes from outside: a signal by its name.</summary>
    public Task GetsSignalAsync(string name) => _terminal.SignalAsync(name);

    /// <summary>The window is closed.</summary>
    public void ClosesTheWindow() => _terminal.Unplug();

    /// <summary>Leaves at once.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> LeavesAsync()
    {
        await PressesAsync("Ctrl-C");
        return await _terminal.ExitCodeAsync();
    }

    /// <summary>Waits for the end.</summary>
    /// <returns>The exit code.</returns>
    public Task<int> SeesTheEndAsync() => _terminal.ExitCodeAsync();

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        _terminal.Dispose();
        return ValueTask.CompletedTask;
    }
}
