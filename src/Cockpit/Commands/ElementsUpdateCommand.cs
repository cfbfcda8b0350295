using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Cockpit.Devices.Downloads;
using Cockpit.Settings.Stored;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit elements update: newer element sets from the address in the settings.</summary>
internal static class ElementsUpdateCommand
{
    public static Command Create(TimeProvider clock)
    {
        Option<Uri?> address = CommonOptions.Named<Uri>("--address", "ADDRESS", "Where they are, http or https; that of the settings where missing", ReadAddress);
        Option<string> file = new("--elements") { HelpName = "FILE", Description = "Where they go; the file of the settings where missing" };
        Command command = new(
            "update",
            """
            Fetch newer element sets: only what changed, no oftener than every two hours, whole or not at all; the old file stays beside the new one as .old.
            Nothing is ever fetched by itself. Without a network the old ones serve.

            Examples:
              cockpit elements update
              cockpit elements update --address https://elements.example/weather.txt --elements elements.txt
            """)
        {
            address, file,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!StoredWords.Load(parsed, SettingsFile.UsualPath).Try(out StoredWords.Found? found, out ParseError? error))
            {
                await complaints.WriteLineAsync(error.ToString());
                return CommandRoot.WrongInput;
            }

            Uri? from = parsed.GetValue(address) ?? (found.Settings?.Root.One("elements")?.Text("address") is { } stored ? new Uri(stored) : null);
            if (from is null)
            {
                await complaints.WriteLineAsync("no address is known: give one with --address, or as address under [elements] in the settings");
                return CommandRoot.WrongInput;
            }

            string to = parsed.GetValue(file) ?? StoredOption.ElementsFile(found.Settings);
            Download outcome = await new PoliteDownload(clock, $"cockpit/{ProgramVersion.Text}").FetchAsync(from, to, WhatIsWrong, cancellation);
            return await TellAsync(parsed, outcome, to, clock.GetUtcNow());
        });
        return command;
    }

    private static async Task<int> TellAsync(ParseResult parsed, Download outcome, string file, DateTimeOffset now)
    {
        TextWriter output = parsed.InvocationConfiguration.Output;
        switch (outcome)
        {
            case Download.Fetched:
                await output.WriteLineAsync($"{file} is new: {Age(file, now)}");
                return 0;
            case Download.Unchanged:
                await output.WriteLineAsync($"nothing newer is there; {file} holds {Age(file, now)}");
                return 0;
            case Download.TooSoon soon:
                await output.WriteLineAsync(string.Create(
                    CultureInfo.InvariantCulture, $"not asked again before {soon.AgainUtc:HH:mm} UTC, so that the server has peace; {file} holds {Age(file, now)}"));
                return 0;
            case Download.Failed failed:
                string old = File.Exists(file) ? $"; {file} stays as it was: {Age(file, now)}" : "";
                await parsed.InvocationConfiguration.Error.WriteLineAsync($"{failed.Reason}{old}");
                return CommandRoot.Failed;
            default:
                throw new InvalidOperationException("a download ends in one of four ways");
        }
    }

    private static string Age(string file, DateTimeOffset now)
    {
        if (!ElementsInput.Read(file, TextWriter.Null).Try(out System.Collections.Immutable.ImmutableArray<ElementSet> sets, out _))
        {
            return "no element sets";
        }

        System.Collections.Immutable.ImmutableArray<ElementSet> newest = NewestElements.Of(sets);
        ElementAge[] ages = [.. newest.Select(set => ElementAge.At(set, now)).OrderBy(age => age.Age)];
        return string.Create(
            CultureInfo.InvariantCulture, $"{ages.Length} satellites, the middle one {ages[ages.Length / 2].Age.TotalDays:0.0} days old, the oldest {ages[^1].Age.TotalDays:0.0}");
    }

    /// <summary>A page of words in place of elements, as a log-in gives it, must not take the place of elements.</summary>
    private static string? WhatIsWrong(string path)
    {
        using FileStream stream = File.OpenRead(path);
        ElementFile read = ElementSets.Read(path, stream);
        return read.Sets.IsEmpty ? $"there is no element set in it ({read.Errors.FirstOrDefault()?.Message ?? "it is empty"})" : null;
    }

    private static Parsed<Uri> ReadAddress(string text, string source) => SettingChecks.WebAddress(text) is { } wrong
        ? new ParseError(source, 0, 0, wrong)
        : new Uri(text);
}
