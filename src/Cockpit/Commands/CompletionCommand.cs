using System.CommandLine;

namespace Cockpit.Commands;

/// <summary>cockpit completion: what a shell needs so that the tabulator completes commands and options.</summary>
public static class CompletionCommand
{
    /// <summary>The shells, each with how its script is put to use and the script; all ask the program itself what fits.</summary>
    private static readonly IReadOnlyDictionary<string, (string Use, string Script)> Shells = new Dictionary<string, (string, string)>(StringComparer.Ordinal)
    {
        ["bash"] = ("cockpit completion bash >> ~/.bashrc", """
            _cockpit_complete() {
                local line
                COMPREPLY=()
                while IFS= read -r line; do
                    [[ $line == "${COMP_WORDS[COMP_CWORD]}"* ]] && COMPREPLY+=("$(printf '%q' "$line")")
                done < <(cockpit "[suggest:${COMP_POINT}]" "${COMP_LINE}" 2>/dev/null)
            }
            complete -o default -F _cockpit_complete cockpit
            """),
        ["zsh"] = ("cockpit completion zsh >> ~/.zshrc", """
            _cockpit() {
                local -a found
                found=("${(@f)$(cockpit "[suggest:${#BUFFER}]" "${BUFFER}" 2>/dev/null)}")
                compadd -- "${found[@]}" || _files
            }
            (( $+functions[compdef] )) || { autoload -Uz compinit && compinit }
            compdef _cockpit cockpit
            """),
        ["fish"] = ("cockpit completion fish > ~/.config/fish/completions/cockpit.fish", """
            complete -c cockpit -a '(set -l line (commandline -cp); cockpit "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null)'
            """),
        ["pwsh"] = ("cockpit completion pwsh >> $PROFILE", """
            Register-ArgumentCompleter -Native -CommandName cockpit -ScriptBlock {
                param($word, $line, $position)
                cockpit "[suggest:$position]" "$line" 2>$null | Where-Object { $_ -like "$word*" } |
                    ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
            }
            """),
    };

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> shell = new("shell") { HelpName = "bash|zsh|fish|pwsh", Description = "Which shell" };
        shell.AcceptOnlyFromAmong([.. Shells.Keys]);
        string uses = string.Join(Environment.NewLine, Shells.Values.Select(one => "  " + one.Use));
        Command command = new(
            "completion",
            $"""
            Print what a shell needs so that the tabulator completes commands, options and their values.

            Put to use once with:
            {uses}
            """)
        {
            shell,
        };
        command.SetAction(parsed =>
        {
            (string use, string script) = Shells[parsed.GetRequiredValue(shell)];
            parsed.InvocationConfiguration.Output.WriteLine($"# {use}");
            parsed.InvocationConfiguration.Output.WriteLine(script);
            return 0;
        });
        return command;
    }
}
