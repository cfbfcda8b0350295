using System.CommandLine;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>cockpit manual: the manual page.</summary>
internal static class ManualCommand
{
    /// <summary>The command.</summary>
    /// <param name="clock">The date of the page.</param>
    public static Command Create(TimeProvider clock)
    {
        Option<DateOnly?> date = CommonOptions.Value<DateOnly>("--date", "YYYY-MM-DD", "The date that stands on it; today where missing", EveningSpan.ReadDate);
        Command command = new(
            "manual",
            """
            Print the manual page, in roff.

            Examples:
              cockpit manual | man -l -
              cockpit manual > ~/.local/share/man/man1/cockpit.1
            """)
        {
            date,
        };
        command.SetAction(parsed =>
        {
            DateOnly day = parsed.GetValue(date) ?? DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);
            parsed.InvocationConfiguration.Output.Write(ManualPage.Of(CommandRoot.Build(), ProgramVersion.Text, day));
            return 0;
        });
        return command;
    }
}
