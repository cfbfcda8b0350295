using System.ComponentModel;
using System.Diagnostics;

namespace Cockpit.Devices.Speakers;

/// <summary>A program of the platform that speaks a text into a WAV file.</summary>
/// <param name="Name">What it is called; also names its clips in the cache.</param>
/// <param name="Arguments">Its arguments for a text and the path of the file.</param>
internal sealed record SpeechProgram(string Name, Func<string, string, string[]> Arguments)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>The programs of this platform in the order in which they are tried.</summary>
    public static SpeechProgram[] OfThisPlatform() => OperatingSystem.IsWindows() ? [Windows]
        : OperatingSystem.IsMacOS() ? [Mac]
        : [Debian("espeak-ng"), Debian("espeak")];

    /// <summary>What a person can do when there is none.</summary>
    public static string Remedy => OperatingSystem.IsLinux() ? "install the package espeak-ng" : "the system's speech is switched off or missing";

    private static SpeechProgram Mac { get; } = new("say", (text, path) => ["-r", "220", "-o", path, "--file-format=WAVE", "--data-format=LEI16@22050", text]);

    private static SpeechProgram Windows { get; } = new("powershell", (text, path) =>
    [
        "-NoProfile", "-NonInteractive", "-Command",
        $"Add-Type -AssemblyName System.Speech; $s = New-Object System.Speech.Synthesis.SpeechSynthesizer; $s.Rate = 2; $s.SetOutputToWaveFile('{path.Replace("'", "''", StringComparison.Ordinal)}'); $s.Speak('{text}'); $s.Dispose()",
    ]);

    /// <summary>Speaks a text into a file.</summary>
    /// <param name="text">Words of the vocabulary.</param>
    /// <param name="path">The file.</param>
    /// <returns>Why not, in words; null when it is there.</returns>
    public string? Speak(string text, string path)
    {
        ProcessStartInfo start = new(Name, Arguments(text, path)) { RedirectStandardError = true, RedirectStandardOutput = true, UseShellExecute = false, CreateNoWindow = true };
        try
        {
            using Process? process = Process.Start(start);
            if (process is null) { return $"{Name} does not start"; }

            // What it says is of no use; what it does not get rid of would block it.
            process.OutputDataReceived += static (_, _) => { };
            process.ErrorDataReceived += static (_, _) => { };
            process.BeginOutputReadLine();
            process.BeginErrorReadLine();
            if (!process.WaitForExit(Patience))
            {
                process.Kill();
                return $"{Name} does not end";
            }

            return process.ExitCode == 0 && File.Exists(path) ? null : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Name} ends with {process.ExitCode}");
        }
        catch (Win32Exception)
        {
            return $"there is no {Name}";
        }
    }

    private static SpeechProgram Debian(string name) => new(name, (text, path) => ["-v", "en-gb", "-s", "200", "-w", path, text]);
}
