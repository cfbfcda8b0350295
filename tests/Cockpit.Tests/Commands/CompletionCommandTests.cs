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
    [InlineData("did you mean passes? see cockpit --help", "pases")]
    [InlineData("did you mean --station? see cockpit passes --help", "passes", "--statoin=1,2")]
    [InlineData("did you mean --local? see cockpit passes --help", "passes", "--elements", "x", "--station", "1,2", "--loacl")]
    public async Task A_mistyped_word_is_answered_with_what_was_meant(string end, params string[] words)
    {
        CommandRun run = await CommandRun.Of(words);
        Assert.Equal(2, run.ExitCode);
        Assert.EndsWith(end, run.Error.TrimEnd(), StringComparison.Ordinal);
    }
}
