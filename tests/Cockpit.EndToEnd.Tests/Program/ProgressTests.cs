using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>A long list of passes at a terminal, its rows into a file.</summary>
public sealed class ProgressTests : IDisposable
{
    private readonly CockpitProcess _cockpit = new();

    public void Dispose() => _cockpit.Dispose();

    [TerminalFact]
    public async Task A_terminal_sees_how_far_a_long_search_is_and_then_nothing_of_it()
    {
        string rows = Path.Combine(_cockpit.Folder, "rows.csv");
        string program = string.Join(' ', ProgramUnderTest.Words.Select(word => $"'{word}'"));
        ProcessStartInfo info = new("script", [
            "-qefc",
            $"{program} passes --elements '{CockpitProcess.Elements}' --station 47.8,11.2,520 --from 2026-11-25T00:00:00Z --for 366d --format csv > '{rows}'",
            "/dev/null"]) { RedirectStandardOutput = true, RedirectStandardInput = true, UseShellExecute = false };
        using Process script = Process.Start(info) ?? throw new InvalidOperationException("script did not start");
        string seen = await script.StandardOutput.ReadToEndAsync().WaitAsync(TimeSpan.FromSeconds(120));
        await script.WaitForExitAsync();

        Assert.Equal(0, script.ExitCode);
        Assert.Matches("\\r\\[#*-*\\] +[0-9]+ %  [1-6] of 6 satellites", seen);
        Assert.Contains("\r\u001b[K", seen, StringComparison.Ordinal);
        Assert.True((await File.ReadAllLinesAsync(rows)).Length > 5000);
    }
}
