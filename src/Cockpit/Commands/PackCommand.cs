using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit sessions pack, and unpack: the journal of a session in less room; every command reads both.</summary>
public static class PackCommand
{
    /// <summary>The command that packs.</summary>
    public static Command CreatePack() => Create(
        "pack",
        """
        Pack the journals of sessions (Brotli) to about a tenth; replay, review and all the rest read them as they are.

        The packed one is unpacked and compared before it is put in its place; the plain one stays, unless --replace takes it away.

        Example:
          cockpit sessions pack sessions/2026-11-25T172440Z-petrel-2 --replace
        """,
        SessionPacker.Pack);

    /// <summary>The command that unpacks.</summary>
    public static Command CreateUnpack() => Create(
        "unpack",
        """
        Unpack the journals of sessions; the packed one stays, unless --replace takes it away.

        Example:
          cockpit sessions unpack sessions/2026-11-25T172440Z-petrel-2
        """,
        SessionPacker.Unpack);

    private static Command Create(string name, string description, Func<string, bool, Parsed<PackedFile>> make)
    {
        Argument<string[]> paths = new("session") { HelpName = "SESSION...", Description = "Folders of the sessions", Arity = ArgumentArity.OneOrMore };
        Option<bool> replace = new("--replace") { Description = "Take the other one away once the new one is known to be good" };
        Command command = new(name, description) { paths, replace };
        command.SetAction(parsed =>
        {
            bool whole = true;
            foreach (string path in parsed.GetRequiredValue(paths))
            {
                if (make(path, parsed.GetValue(replace)).Try(out PackedFile done, out ParseError? error))
                {
                    parsed.InvocationConfiguration.Output.WriteLine(done.ToString());
                }
                else
                {
                    parsed.InvocationConfiguration.Error.WriteLine(error.ToString());
                    whole = false;
                }
            }

            return whole ? 0 : CommandRoot.WrongInput;
        });
        return command;
    }
}
