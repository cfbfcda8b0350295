using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The manual page under an independent reader of manual pages (mandoc).</summary>
public sealed class ManualLintTests
{
    [ManualFact]
    public async Task Mandoc_has_nothing_to_say_about_the_manual()
    {
        using CockpitProcess cockpit = new();
        (int code, string page, string error) = await cockpit.RunAsync("manual", "--date", "2026-11-26");
        Assert.Equal((0, ""), (code, error));
        string file = Path.Combine(cockpit.Folder, "cockpit.1");
        await File.WriteAllTextAsync(file, page);
        using Process mandoc = Process.Start(new ProcessStartInfo("mandoc", ["-T", "lint", "-W", "warning", file]) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true })!;
        string said = await mandoc.StandardOutput.ReadToEndAsync() + await mandoc.StandardError.ReadToEndAsync();
        await mandoc.WaitForExitAsync();
        Assert.Equal("", said);
        Assert.Equal(0, mandoc.ExitCode);
    }
}
