using Cockpit.Commands;

namespace Cockpit.Tests.Commands;

public sealed class CompletionCommandTests
{
    [Theory]
    [InlineData("cockpit pa", "passes")]
    [InlineData("cockpit passes --lo", "--local")]
    [InlineData("cockpit live --service sp", "split-phase-665k")]
    [InlineData("cockpit settings ch", "check")]
    public async Task The_program_says_what_fits_at_a_place_of_a_line(string line, string word)
    {
        CommandRun run = await CommandRun.Of(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"[suggest:{line.Length}]"), line);
        Assert.Contains(word, run.Output.Split('\n', StringSplitOptions.TrimEntries));
    }

    [Theory]
    [InlineData("bash", "complete -o default -F _cockpit_complete cockpit")]
    [InlineData("zsh", "compdef _cockpit cockpit")]
    [InlineData("fish", "complete -c cockpit")]
    [InlineData("pwsh", "Register-ArgumentCompleter -Native -CommandName cockpit")]
    public async Task Each_shell_has_its_script(string shell, string line)
    {
        CommandRun run = await CommandRun.Of("completion", shell);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains(line, run.Output, StringComparison.Ordinal);
        Assert.Contains("[suggest:", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("alias ll='ls -l'")]
    [InlineData("alias ll='ls -l'\r\nexport A=1\n")]
    public void Put_into_a_profile_twice_it_stands_there_once_and_all_else_stays(string before)
    {
        ShellCompletion bash = Needed("bash");
        string once = bash.Into(before);
        Assert.StartsWith(before, once, StringComparison.Ordinal);
        Assert.Contains(bash.Script, once, StringComparison.Ordinal);
        Assert.Equal(once, bash.Into(once));
        Assert.Equal(once + "export B=2\n", bash.Into(once + "export B=2\n"));
    }

    [Fact]
    public void Lines_of_an_earlier_time_are_replaced()
    {
        ShellCompletion bash = Needed("bash");
        string old = bash.Into("first\n").Replace("COMPREPLY=()", "COMPREPLY=(old)", StringComparison.Ordinal) + "last\n";
        Assert.Equal(bash.Into("first\n") + "last\n", bash.Into(old));
    }

    [Fact]
    public void A_begin_without_an_end_takes_nothing_away()
    {
        string torn = "# cockpit completion: begin\nexport A=1\n";
        Assert.StartsWith(torn, Needed("zsh").Into(torn), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("bash", "/home/me/.bashrc")]
    [InlineData("zsh", "/home/me/z/.zshrc")]
    [InlineData("fish", "/home/me/c/fish/completions/cockpit.fish")]
    [InlineData("pwsh", "/home/me/c/powershell/profile.ps1")]
    public void Each_shell_has_its_place(string shell, string file)
    {
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(file, Needed(shell).File);
        }
    }

    [Theory]
    [InlineData("did you mean passes? see cockpit --help", "pases")]
    [InlineData("did you mean --station? see cockpit passes --help", "passes", "--statoin=1,2")]
    [InlineData("did you mean --local? see cockpit passes --help", "passes", "--elements", "x", "--station", "1,2", "--loacl")]
    public async Task A_mistyped_word_is_answered_with_what_was_meant(string end, params string[] words)
    {
        CommandRun run = await CommandRun.Of(words);
        Assert.Equal(2, run.ExitCode);
        Assert.EndsWith(end, run.Error.TrimEnd(), StringComparison.Ordinal);
    }

    private static ShellCompletion Needed(string shell) => ShellCompletion.Of(
        shell, "/home/me", "/home/me/documents", name => name switch { "ZDOTDIR" => "/home/me/z", "XDG_CONFIG_HOME" => "/home/me/c", _ => null });
}
