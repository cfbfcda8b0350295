using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Reports;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit settings new: a commented file, by five questions or by options.</summary>
internal sealed class SettingsNewCommand
{
    /// <summary>How often one question is asked before it is left open.</summary>
    private const int Patience = 3;

    private readonly Option<Site?> _station = CommonOptions.Station();
    private readonly Option<string> _name = new("--name") { HelpName = "NAME", Description = "What you call the place; home where missing" };
    private readonly Option<double?> _dish = CommonOptions.Dish();
    private readonly Option<string> _elements = new("--elements") { HelpName = "FILE|ADDRESS", Description = "Element sets: a file, or the web address of them" };
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<string> _signal = new("--signal") { HelpName = "ADDRESS", Description = "Where the level comes from, as in cockpit live" };

    public static Command Create()
    {
        SettingsNewCommand it = new();
        Command command = new(
            "new",
            """
            Write a file of settings with a comment beside everything that can be set. Without options it asks five questions.

            Examples:
              cockpit settings new
              cockpit settings new --station 47.8,11.2,520 --dish 0.8 --elements elements.txt --satellite "PETREL 2"
            """)
        {
            it._station, it._name, it._dish, it._elements, it._satellite, it._signal,
        };
        command.SetAction(it.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string file = parsed.GetValue(CommandRoot.SettingsOption) ?? SettingsFile.UsualPath;
        if (File.Exists(file))
        {
            complaints.WriteLine($"{file}: there are settings already; change them there, or write others with --settings FILE");
            return CommandRoot.WrongInput;
        }

        Dictionary<(string Table, string Key), string> known = Given(parsed);
        if (known.Count == 0)
        {
            if (Console.IsInputRedirected)
            {
                complaints.WriteLine("settings new asks in a terminal; without one say --station LAT,LON and the rest as options");
                return CommandRoot.WrongInput;
            }

            known = Asked(parsed.InvocationConfiguration.Output);
        }

        string text = SettingsText.New(known);
        StoredSettings read = SettingsReader.Read(text, file);
        if (read.Mistakes is [var mistake, ..])
        {
            complaints.WriteLine(mistake.Message);
            return CommandRoot.WrongInput;
        }

        if (MakeFolder(file) is { } trouble || (trouble = WholeFile.Write(file, text, "the file of settings", "--settings")) is not null)
        {
            complaints.WriteLine(trouble.ToString());
            return CommandRoot.Failed;
        }

        parsed.InvocationConfiguration.Output.WriteLine($"{file} is written; look at it with cockpit settings, and add to it with a text editor");
        return 0;
    }

    private Dictionary<(string Table, string Key), string> Given(ParseResult parsed)
    {
        Dictionary<(string, string), string> known = [];
        if (parsed.GetValue(_station) is { } site)
        {
            Put(known, site, parsed.GetValue(_name) ?? "home");
        }

        if (parsed.GetValue(_dish) is { } metres)
        {
            PutDish(known, metres);
        }

        PutText(known, parsed.GetValue(_elements), PutElements);
        PutText(known, parsed.GetValue(_satellite), (to, text) => to[("favourites", "satellite")] = text);
        PutText(known, parsed.GetValue(_signal), (to, text) => to[("receiver", "signal")] = text);
        return known;
    }

    private static Dictionary<(string Table, string Key), string> Asked(TextWriter output)
    {
        Dictionary<(string, string), string> known = [];
        output.WriteLine("Five questions; an empty answer leaves one open, and all can be changed in the file later.");
        Ask(output, "1. Where do you stand? LAT,LON[,ALT_M], degrees north and east, metres: ", StationText.Read, site => Put(known, site, "home"));
        Ask(output, "2. Diameter of the dish in metres: ", ReadMetres, metres => PutDish(known, metres));
        Ask(output, "3. Element sets: a file, or the web address of them: ", ReadText, text => PutElements(known, text));
        Ask(output, "4. The satellite you follow most: name or catalogue number: ", ReadText, text => known[("favourites", "satellite")] = text);
        Ask(output, "5. Where the level comes from, like tcp://localhost:4700: ", ReadText, text => known[("receiver", "signal")] = text);
        return known;
    }

    private static void Ask<T>(TextWriter output, string question, Func<string, string, Parsed<T>> read, Action<T> take)
        where T : notnull
    {
        for (int tries = 0; tries < Patience; tries++)
        {
            output.Write(question);
            output.Flush();
            if (Console.ReadLine()?.Trim() is not { Length: > 0 } answer)
            {
                return;
            }

            if (read(answer, "").Try(out T? value, out ParseError? error))
            {
                take(value);
                return;
            }

            output.WriteLine($"   {error.Message}");
        }
    }

    private static Parsed<string> ReadText(string text, string source) => text;

    private static Parsed<double> ReadMetres(string text, string source) => NumberText.TryRead(text, out double metres) && metres is >= 0.2 and <= 10.0
        ? metres
        : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a number from 0.2 to 10 metres");

    private static void Put(Dictionary<(string, string), string> known, Site site, string name)
    {
        known[("places", "name")] = name;
        foreach ((string key, double value) in SettingsPlaces.Numbers(site))
        {
            known[("places", key)] = value.ToString("R", CultureInfo.InvariantCulture);
        }
    }

    private static void PutDish(Dictionary<(string, string), string> known, double metres)
    {
        known[("dishes", "name")] = "dish";
        known[("dishes", "diameter_m")] = metres.ToString("R", CultureInfo.InvariantCulture);
    }

    private static void PutElements(Dictionary<(string, string), string> known, string text)
    {
        bool isAddress = text.StartsWith("http://", StringComparison.Ordinal) || text.StartsWith("https://", StringComparison.Ordinal);
        known[("elements", isAddress ? "address" : "file")] = isAddress ? text : Path.GetFullPath(text);
    }

    private static void PutText(Dictionary<(string, string), string> known, string? text, Action<Dictionary<(string, string), string>, string> put)
    {
        if (text is not null)
        {
            put(known, text);
        }
    }

    private static ParseError? MakeFolder(string file)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(file)) ?? ".");
            return null;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(file, 0, 0, $"its folder cannot be made ({FileWords.Of(failure)})");
        }
    }
}
