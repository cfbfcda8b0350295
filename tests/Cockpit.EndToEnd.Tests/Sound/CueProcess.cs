using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Sound;

/// <summary>Runs the program's own command in a process of its own, because libasound reads HOME when it first opens.</summary>
internal sealed class CueProcess : IDisposable
{
    private readonly DirectoryInfo _home = Directory.CreateTempSubdirectory("cockpit-sound-");

    public string Home => _home.FullName;

    public string Wav => Path.Combine(Home, "sound.wav");

    /// <summary>What ALSA is told in this home.</summary>
    public void Configure(string asoundrc) => File.WriteAllText(Path.Combine(Home, ".asoundrc"), asoundrc);

    /// <summary>Sends everything that is played into a WAV file.</summary>
    public void ConfigureFile() => Configure(
        $$"""
        pcm.!default { type file slave.pcm "null" file "{{Wav}}" format "wav" }
        pcm.null { type null }
        """);

    public Process Start(params string[] words)
    {
        ProcessStartInfo info = new(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet")
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Home,
        };
        info.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "cockpit.dll"));
        info.ArgumentList.Add("cue");
        foreach (string word in words) { info.ArgumentList.Add(word); }

        info.Environment["HOME"] = Home;
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

    public void Dispose() => _home.Delete(recursive: true);
}
