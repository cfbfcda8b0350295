namespace Cockpit.Commands;

/// <summary>What one shell needs so that the tabulator completes; every script asks the program itself what fits.</summary>
/// <param name="Script">The lines, as the shell reads them.</param>
/// <param name="File">Where they belong.</param>
/// <param name="IsShared">Whether that file has lines of others too.</param>
internal sealed record ShellCompletion(string Script, string File, bool IsShared)
{
    private const string First = "# cockpit completion: begin";
    private const string Last = "# cockpit completion: end";

    /// <summary>The names of the shells.</summary>
    public static string[] Names { get; } = ["bash", "zsh", "fish", "pwsh"];

    /// <summary>What the shell of a name needs.</summary>
    /// <param name="shell">One of <see cref="Names"/>.</param>
    /// <param name="home">The folder of the user.</param>
    /// <param name="documents">The folder of the user's documents, where Windows keeps the profile of PowerShell.</param>
    /// <param name="variable">The environment.</param>
    public static ShellCompletion Of(string shell, string home, string documents, Func<string, string?> variable)
    {
        string settings = variable("XDG_CONFIG_HOME") is { Length: > 0 } told && Path.IsPathRooted(told) ? told : Path.Join(home, ".config");
        return shell switch
        {
            "bash" => new(Bash, Path.Join(home, ".bashrc"), IsShared: true),
            "zsh" => new(Zsh, Path.Join(variable("ZDOTDIR") is { Length: > 0 } folder ? folder : home, ".zshrc"), IsShared: true),
            "fish" => new(Fish, Path.Join(settings, "fish", "completions", "cockpit.fish"), IsShared: false),
            _ => new(PowerShell, Path.Join(OperatingSystem.IsWindows() ? Path.Join(documents, "PowerShell") : Path.Join(settings, "powershell"), "profile.ps1"), IsShared: true),
        };
    }

    /// <summary>The file with these lines in it: the lines of an earlier time are replaced, all else stays to the last character.</summary>
    /// <param name="before">What stands in the file; null where there is none.</param>
    public string Into(string? before)
    {
        string ours = $"{First}\n{Script}\n{Last}\n";
        if (!IsShared || before is null or "")
        {
            return ours;
        }

        int start = before.IndexOf(First, StringComparison.Ordinal);
        int end = start < 0 ? -1 : before.IndexOf(Last, start, StringComparison.Ordinal);
        if (end < 0)
        {
            return $"{before}{(before.EndsWith('\n') ? "" : "\n")}\n{ours}";
        }

        end += Last.Length;
        int rest = end < before.Length && before[end] == '\n' ? end + 1 : end;
        return $"{before[..start]}{ours}{before[rest..]}";
    }

    private const string Bash = """
        _cockpit_complete() {
            local line
            COMPREPLY=()
            while IFS= read -r line; do
                [[ $line == "${COMP_WORDS[COMP_CWORD]}"* ]] && COMPREPLY+=("$(printf '%q' "$line")")
            done < <("$1" "[suggest:${COMP_POINT}]" "${COMP_LINE}" 2>/dev/null)
        }
        complete -o default -F _cockpit_complete cockpit
        """;

    private const string Zsh = """
        _cockpit() {
            local -a found
            found=("${(@f)$(${~words[1]} "[suggest:${#BUFFER}]" "${BUFFER}" 2>/dev/null)}")
            compadd -- "${found[@]}" || _files
        }
        (( $+functions[compdef] )) || { autoload -Uz compinit && compinit }
        compdef _cockpit cockpit
        """;

    private const string Fish = """
        function __cockpit_complete
            set -l line (commandline -cp)
            set -l words (commandline -cpo)
            $words[1] "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
        end
        complete -c cockpit -a '(__cockpit_complete)'
        """;

    private const string PowerShell = """
        Register-ArgumentCompleter -Native -CommandName cockpit, cockpit.exe -ScriptBlock {
            param($word, $line, $position)
            & $line.CommandElements[0].Value "[suggest:$position]" "$line" 2>$null | Where-Object { $_ -like "$word*" } |
                ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
        }
        """;
}
