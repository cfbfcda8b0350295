using System.CommandLine;
using System.CommandLine.Invocation;
using Cockpit.Core.Formats;
using Cockpit.Settings.Stored;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>All commands under one root, and the rule of the exit codes: 0 done, 1 it failed, 2 the words or the input are wrong.</summary>
public static class CommandRoot
{
    /// <summary>It failed.</summary>
    public const int Failed = 1;

    /// <summary>The words or the input are wrong.</summary>
    public const int WrongInput = 2;

    /// <summary>--settings FILE: other settings than the usual ones.</summary>
    internal static Option<string> SettingsOption { get; } = new("--settings")
    {
        HelpName = "FILE",
        Description = "Settings from this file in place of the usual one; cockpit settings says which that is",
        Recursive = true,
    };

    /// <summary>The whole command line.</summary>
    public static RootCommand Build()
    {
        TimeProvider clock = TimeProvider.System;
        var root = new RootCommand("Follow a low-orbit weather satellite by hand: choose the pass, keep the dish on it, learn afterwards.")
        {
            LiveCommand.Create(),
            GuideCommand.Create(),
            ReplayCommand.Create(),
            ReviewCommand.Create(),
            SessionsCommand.Create(),
            ProgressCommand.Create(),
            ExportCommand.Create(),
            ShareCommand.Create(),
            TonightCommand.Create(clock),
            RehearseCommand.Create(clock),
            PassesCommand.Create(clock),
            LookCommand.Create(clock),
            LinkCommand.Create(),
            MeterCommand.Create(clock),
            FeedCommand.Create(clock),
            PlaceCommand.Create(clock),
            BearingCommand.Build(clock),
            CheckCommand.Create(),
            SimulateCommand.Create(clock),
            CompletionCommand.Create(),
            ManualCommand.Create(clock),
            ElementsCommand.Create(clock),
            SettingsCommand.Create(),
            SkylineCommand.Create(clock),
            AddCommands.Dish(),
            AddCommands.Favourite(),
        };
        root.Add(SettingsOption);
        root.Add(CueCommand.Build());
        DemoCommand.AddTo(root);
        return root;
    }

    /// <summary>Runs one command line to its end.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <returns>The exit code.</returns>
    public static Task<int> RunAsync(string[] args) => RunAsync(
        args, SevenBitWriter.For(Console.Out, Console.IsOutputRedirected), SevenBitWriter.For(Console.Error, Console.IsErrorRedirected), SettingsFile.UsualPath);

    /// <summary>Runs one command line to its end and prints to the writers given.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <param name="output">For results.</param>
    /// <param name="error">For everything else.</param>
    /// <param name="settings">The file of the settings where the words name none; null = without.</param>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter error, string? settings = null)
    {
        output = new CleanWriter(new OutputWriter(output));
        error = new CleanWriter(error);

        RootCommand root = Build();
        ParseResult parsed = root.Parse(args, Words);
        if (!StoredWords.Load(parsed, settings).Try(out StoredWords.Found? found, out ParseError? trouble))
        {
            await TellAsync(error, trouble.ToString());
            return WrongInput;
        }

        if (found.Trouble is not null && StoredWords.Matters(parsed))
        {
            await TellAsync(error, $"{found.Trouble}; going on without them");
        }

        if (found.Settings is { } stored)
        {
            parsed = root.Parse(StoredWords.AddTo(args, parsed, stored), Words);
            if (StoredWords.Caution(parsed, stored) is { } caution)
            {
                await TellAsync(error, caution);
            }
        }

        if (parsed.Action is ParseErrorAction)
        {
            await TellAsync(error, $"{Complaint(parsed).TrimEnd('.')}; {Meant(parsed)}see cockpit {PathTo(parsed)}--help");
            return WrongInput;
        }

        try
        {
            var configuration = new Surroundings
            {
                Settings = found.Settings,
                Output = output,
                Error = error,
                EnableDefaultExceptionHandler = false,
                ProcessTerminationTimeout = null,
            };
            return await parsed.InvokeAsync(configuration);
        }
        catch (OperationCanceledException)
        {
            await TellAsync(error, "stopped");
            return Failed;
        }
        catch (OutputException failure)
        {
            await TellAsync(error, $"the output cannot be written: {FileWords.Of(failure.InnerException ?? failure)}; the rest of it is missing");
            return Failed;
        }
        catch (Exception e)
        {
            await TellAsync(error, "unexpected: " + e);
            return Failed;
        }
    }

    /// <summary>A word that begins with @ is a word, not a file of further options.</summary>
    private static ParserConfiguration Words => new() { ResponseFileTokenReplacer = null };

    private static async Task TellAsync(TextWriter error, string sentence)
    {
        try
        {
            await error.WriteLineAsync(sentence);
        }
        catch (IOException)
        {
            // Nobody can be told; the exit code says it.
        }
    }

    // A word nobody knows is the better complaint: where it stands for a command, "a command is missing" comes first in the list.
    private static string Complaint(ParseResult parsed) =>
        (parsed.Errors.FirstOrDefault(error => parsed.UnmatchedTokens.Any(word => error.Message.Contains($"'{word}'", StringComparison.Ordinal))) ?? parsed.Errors[0]).Message;

    /// <summary>The command or the option that a mistyped word was meant to be.</summary>
    private static string Meant(ParseResult parsed)
    {
        Command command = parsed.CommandResult.Command;
        IEnumerable<string> known = command.Subcommands.Select(one => one.Name).Concat(command.Options.Select(one => one.Name));
        return parsed.UnmatchedTokens.Select(word => NearestWord.Of(word.Split('=')[0], known)).OfType<string>().FirstOrDefault() is { } near ? $"did you mean {near}? " : "";
    }

    private static string PathTo(ParseResult parsed)
    {
        string path = "";
        for (System.CommandLine.Parsing.SymbolResult? at = parsed.CommandResult; at?.Parent is not null; at = at.Parent)
        {
            path = ((System.CommandLine.Parsing.CommandResult)at).Command.Name + " " + path;
        }

        return path;
    }
}
