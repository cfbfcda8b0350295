using System.Diagnostics;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Sound;

/// <summary>Runs cockpit cue in a process of its own, because libasound reads HOME when it first opens.</summary>
internal sealed class CueProcess : IDisposable
{
    private readonly CockpitProcess _cockpit = new();

    public string Home => _cockpit.Folder;

    public string Wav => Path.Combine(Home, "sound.wav");

    /// <summary>What ALSA is told in this home.</summary>
    public void Configure(string asoundrc) => File.WriteAllText(Path.Combine(Home, ".asoundrc"), asoundrc);

    /// <summary>Sends everything that is played into a WAV file.</summary>
    public void ConfigureFile() => Configure(
        $$"""
        pcm.!default { type file slave.pcm "null" file "{{Wav}}" format "wav" }
        pcm.null { type null }
        """);

    public Process Start(params string[] words) => _cockpit.Start(["cue", .. words]);

    public Task<(int ExitCode, string Output, string Error)> RunAsync(params string[] words) => _cockpit.RunAsync(["cue", .. words]);

    public void Dispose() => _cockpit.Dispose();
}
