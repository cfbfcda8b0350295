using Cockpit.Commands;

namespace Cockpit.Tests.Commands;

/// <summary>One command line run inside the test's own process.</summary>
public sealed record CommandRun(int ExitCode, string Output, string Error)
{
    public static async Task<CommandRun> Of(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int code = await CommandRoot.RunAsync(args, output, error);
        return new CommandRun(code, output.ToString(), error.ToString());
    }
}
