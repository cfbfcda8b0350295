using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The completion, put to use by its one command, in a real shell of an empty home.</summary>
public sealed class CompletionInShellTests
{
    [ShellFact]
    public async Task Bash_completes_commands_and_options_once_it_is_installed()
    {
        using CockpitProcess cockpit = new();
        string home = Directory.CreateDirectory(Path.Combine(cockpit.Folder, "home")).FullName;
        string program = Path.Combine(cockpit.Folder, "cockpit");
        await File.WriteAllTextAsync(program, $"#!/bin/sh\nexec {string.Join(' ', ProgramUnderTest.Words.Select(word => $"'{word}'"))} \"$@\"\n");
        await InAsync(home, $"chmod +x '{program}'");

        Assert.EndsWith("/.bashrc: bash completes cockpit from its next start on\n", await InAsync(home, $"{program} completion bash --install"), StringComparison.Ordinal);
        Assert.Equal("passes\nplace\nprogress\n", await CompletedAsync(home, program, "p"));
        Assert.Equal("--local\n", await CompletedAsync(home, program, "passes", "--lo"));
    }

    private static Task<string> CompletedAsync(string home, string program, params string[] words)
    {
        string line = string.Join(' ', [program, .. words]);
        return InAsync(home, $"COMP_WORDS=({line}); COMP_CWORD={words.Length}; COMP_LINE='{line}'; COMP_POINT={line.Length}; _cockpit_complete {program}; printf '%s\\n' \"${{COMPREPLY[@]}}\"");
    }

    // A shell that somebody types in reads the profile; this one says what it did on standard output.
    private static async Task<string> InAsync(string home, string commands)
    {
        ProcessStartInfo start = new("bash", ["-i", "-c", commands]) { UseShellExecute = false, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["HOME"] = home;
        using Process bash = Process.Start(start) ?? throw new InvalidOperationException("bash did not start");
        bash.StandardInput.Close();
        Task<string> unheard = bash.StandardError.ReadToEndAsync();
        string said = await bash.StandardOutput.ReadToEndAsync();
        await unheard;
        await bash.WaitForExitAsync();
        return said;
    }
}
