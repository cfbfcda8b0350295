using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The program in a process of its own, with a folder of its own that is also its home.</summary>
internal sealed class CockpitProcess : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-run-");

    public string Folder => _folder.FullName;

    public string Sessions => Path.Combine(Folder, "sessions");

    /// <summary>The invented satellites and the station of the reference tables, a minute after the rise of a high pass.</summary>
    public static string Elements => Path.Combine(AppContext.BaseDirectory, "data", "reference", "satellites.tle");

    public string[] Live(params string[] more) =>
    [
        "live", "--elements", Elements, "--satellite", "BRACKWING 5", "--station", "47.8,11.2,520",
        "--at", "2026-11-26T17:48:00Z", "--sessions", Sessions, "--sound", "off", "--plain", .. more,
    ];

    public Process Start(params string[] words)
    {
        ProcessStartInfo info = ProgramUnderTest.Start(words);
        info.WorkingDirectory = Folder;
        info.Environment["HOME"] = Folder;
        info.Environment.Remove("XDG_CACHE_HOME");
        info.Environment.Remove("XDG_CONFIG_HOME");
        return Process.Start(info) ?? throw new InvalidOperationException("the process did not start");
    }

    public async Task<(int ExitCode, string Output, string Error)> RunAsync(params string[] words)
    {
        using Process process = Start(words);
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        return (process.ExitCode, await output, await error);
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
