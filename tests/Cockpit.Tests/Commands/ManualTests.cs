using System.CommandLine;
using Cockpit.Commands;
using Cockpit.Screen.Keys;

namespace Cockpit.Tests.Commands;

public sealed class ManualTests
{
    private static readonly string Page = ManualPage.Of(CommandRoot.Build(), "1.2.3", new DateOnly(2026, 11, 26));

    [Fact]
    public void Every_command_every_option_and_every_key_stands_in_it()
    {
        Assert.StartsWith(".TH COCKPIT 1 2026-11-26 \"Cockpit 1.2.3\"\n", Page, StringComparison.Ordinal);
        foreach ((string path, Command command) in Commands(CommandRoot.Build(), "cockpit"))
        {
            Assert.Contains($".SS \"{path}", Page, StringComparison.Ordinal);
            foreach (Option option in command.Options.Where(option => !option.Hidden && !option.Recursive))
            {
                Assert.Contains($"\\fB{option.Name.Replace("-", "\\-", StringComparison.Ordinal)}\\fR", Page, StringComparison.Ordinal);
            }
        }

        Assert.All(KeyTable.All.Where(key => key.Help.All(sign => sign <= '~' && !"-'~^`\\".Contains(sign, StringComparison.Ordinal))), key => Assert.Contains($"\n{key.Help}\n", Page, StringComparison.Ordinal));
    }

    [Fact]
    public void No_text_is_taken_for_a_request_and_every_sign_has_seven_bits()
    {
        RootCommand root = new("a") { new Command("b", ".start of a sentence\n'quoted' and ±3° with \\ and a-b\n\n  .example\n") };
        string page = ManualPage.Of(root, "1", new DateOnly(2026, 1, 1));
        Assert.Contains("\n\\&.start of a sentence\n\\(aqquoted\\(aq and \\[u00B1]3\\[u00B0] with \\e and a\\-b\n", page, StringComparison.Ordinal);
        Assert.Contains(".nf\n  .example\n.fi\n", page, StringComparison.Ordinal);
        Assert.All(page, sign => Assert.True(sign is '\n' or (>= ' ' and <= '~')));
    }

    private static IEnumerable<(string Path, Command Command)> Commands(Command parent, string path) => parent.Subcommands.Where(command => !command.Hidden)
        .SelectMany(command => Commands(command, $"{path} {command.Name}").Prepend(($"{path} {command.Name}", command)));
}
