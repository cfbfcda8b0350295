using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Units;
using Cockpit.Devices.Phone;
using Cockpit.Devices.Ports;
using Cockpit.Reports;
using Cockpit.Session.Computers.Readiness;
using Cockpit.Session.State;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit skyline: what hides the sky at a place of the settings; shown, and taught while the dish is panned along it.</summary>
internal sealed class SkylineCommand
{
    private readonly Argument<string?> _shown = NameArgument();
    private readonly Argument<string?> _taught = NameArgument();
    private readonly Option<bool> _byCompass = new("--by-compass") { Description = "The azimuths are read from a compass, not from true north" };
    private readonly Option<double?> _turn = CommonOptions.Number("--turn", "DEG", "Added to each azimuth that is read: where the zero of the head's scale points", -360, 360);
    private readonly Option<bool> _anew = new("--anew") { Description = "Begin without the points that are there" };
    private readonly Option<string?> _phone = new("--phone")
    {
        HelpName = PhoneAddress.Forms,
        Description = "A phone on the dish tells where it points: set it by sun, moon, pole star or a landmark of the place, then pan along the edge",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private readonly TimeProvider _clock;

    private SkylineCommand(TimeProvider clock) => _clock = clock;

    /// <summary>The command.</summary>
    /// <param name="clock">The date of the magnetic model.</param>
    public static Command Create(TimeProvider clock)
    {
        SkylineCommand it = new(clock);
        Command teach = new(
            "teach",
            """
            Teach the skyline of a place: pan the dish along trees and roofs and give the azimuth and the elevation of their edge. In a
            terminal by keys: left and right go 5 degrees along, up and down 1 degree, Enter takes the point; or type the two numbers and
            Enter. Backspace takes the last one back, S keeps all in the settings, Q leaves. Without a terminal one pair a line on standard
            input; "undo", "done" (or its end) and "quit". Never look along the dish near the sun.

            Examples:
              cockpit skyline teach meadow
              cockpit skyline teach meadow --by-compass --anew
              cockpit skyline teach meadow --phone
              printf '0 5\n90 12\n180 6\n' | cockpit skyline teach meadow
            """)
        {
            it._taught, it._byCompass, it._turn, it._anew, it._phone,
        };
        teach.SetAction((parsed, _) => it.TeachAsync(parsed));
        Command command = new("skyline", "What hides the sky at a place of the settings, drawn; skyline teach makes it") { it._shown, teach };
        command.SetAction(parsed => it.Show(parsed));
        return command;
    }

    private static Argument<string?> NameArgument() => new("name")
    {
        HelpName = "NAME",
        Description = "Name of the place in the settings; the place in use where missing",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private static DrawingSigns Signs => DrawingSigns.OfTerminal;

    private int Show(ParseResult parsed)
    {
        if (!Find(parsed, parsed.GetValue(_shown)).Try(out TaughtPlace? place, out ParseError? error))
        {
            parsed.InvocationConfiguration.Error.WriteLine(error.ToString());
            return CommandRoot.WrongInput;
        }

        TextWriter output = parsed.InvocationConfiguration.Output;
        if (place.Mask is null)
        {
            output.WriteLine($"{place.Name} has no skyline: the sky counts as free from 0 degrees on; cockpit skyline teach {place.Name}");
            return 0;
        }

        output.WriteLine($"skyline of {place.Name}, azimuth true, elevation in degrees");
        foreach (string line in new SkylineDrawing(Signs).Lines(place.Mask))
        {
            output.WriteLine(line);
        }

        output.WriteLine(new SkylineLesson(0.0).From(place.Mask).Text);
        return 0;
    }

    private async Task<int> TeachAsync(ParseResult parsed)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!Find(parsed, parsed.GetValue(_taught)).Try(out TaughtPlace? place, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        double turn = parsed.GetValue(_turn) ?? 0.0;
        if (parsed.GetValue(_byCompass))
        {
            turn += WorldMagneticModel.At(place.Site, _clock.GetUtcNow()).Declination.Degrees;
        }

        SkylineLesson lesson = new(turn);
        lesson = place.Mask is { } mask && !parsed.GetValue(_anew) ? lesson.From(mask) : lesson;
        if (parsed.GetResult(_phone) is { Implicit: false })
        {
            if (turn != 0.0)
            {
                await complaints.WriteLineAsync("--phone is set by a known direction; leave --turn and --by-compass out");
                return CommandRoot.WrongInput;
            }

            (SkylineLesson? taught, ParseError? refusal) = await ByPhoneAsync(parsed, place, lesson);
            if (taught is null)
            {
                await complaints.WriteLineAsync(refusal?.ToString());
                return CommandRoot.WrongInput;
            }

            lesson = taught;
        }
        else
        {
            lesson = new SkylineTeacher(place.Name, parsed.InvocationConfiguration.Output, Signs).Run(lesson);
        }

        if (lesson.State != LessonState.Kept)
        {
            await complaints.WriteLineAsync("nothing is changed");
            return CommandRoot.Failed;
        }

        if (Keep(place, lesson.Text) is { } trouble)
        {
            await complaints.WriteLineAsync(trouble.ToString());
            return CommandRoot.WrongInput;
        }

        await parsed.InvocationConfiguration.Output.WriteLineAsync($"{place.File}: the skyline of {place.Name} is {lesson.Text}");
        return 0;
    }

    private async Task<(SkylineLesson? Lesson, ParseError? Refusal)> ByPhoneAsync(ParseResult parsed, TaughtPlace place, SkylineLesson lesson)
    {
        const string option = "--phone";
        if (!PhoneAddress.Read(parsed.GetValue(_phone) ?? "", option).Try(out PhoneAddress? address, out ParseError? error))
        {
            return (null, error);
        }

        ImmutableArray<DirectionOffer> Offers() => DirectionFinder.At(place.Site, place.Landmarks, _clock.GetUtcNow());
        SkylinePan pan = new(lesson, WorldMagneticModel.At(place.Site, _clock.GetUtcNow()).Declination, Offers());
        try
        {
            await using PhoneServer server = PhoneServer.Bind(address, SettingsFile.UsualPhoneFolder, option);
            return (await new SkylinePhone(place.Name, parsed.InvocationConfiguration.Output, Signs, Offers).RunAsync(pan, server), null);
        }
        catch (PortException failure)
        {
            return (null, new ParseError(option, 0, 0, failure.Message));
        }
    }

    private static ParseError? Keep(TaughtPlace place, string text)
    {
        try
        {
            return SettingsChange.OfPlace(File.ReadAllText(place.File), place.File, place.Name, "skyline", text).Try(out string? after, out ParseError? error)
                ? WholeFile.Write(place.File, after, "the file of settings", "--settings")
                : error;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(place.File, 0, 0, $"the settings cannot be read ({FileWords.Of(failure)}); the skyline is {text}");
        }
    }

    private static Parsed<TaughtPlace> Find(ParseResult parsed, string? name)
    {
        string file = SettingsAdder.Target(parsed.GetValue(CommandRoot.SettingsOption) ?? SettingsFile.UsualPath);
        (StoredSettings? settings, ParseError? trouble) = SettingsFile.Load(file);
        if (settings is null)
        {
            return trouble ?? new ParseError(file, 0, 0, "there is no such file of settings; cockpit settings new writes one");
        }

        StoredTable? table = name is null
            ? settings.Place
            : settings.Root.All("places").FirstOrDefault(one => string.Equals(one.Text("name"), name, StringComparison.OrdinalIgnoreCase));
        if (table is null)
        {
            string known = string.Join(", ", settings.Root.All("places").Select(one => one.Text("name")));
            return new ParseError(file, 0, 0, known.Length == 0 ? "there is no place in it; cockpit place add makes one" : $"there is no place {Quoted.Of(name ?? "")} in it; there is {known}");
        }

        HorizonMask? mask = null;
        ParseError? wrong = null;
        if (table.Text("skyline") is { Length: > 0 } text
            && !HorizonInput.Read(text.Contains(':', StringComparison.Ordinal) ? text : settings.Resolve(text)).Try(out mask, out wrong))
        {
            return wrong;
        }

        ImmutableArray<Landmark> landmarks = [];
        if (table.Text("landmarks") is { Length: > 0 } seen && !LandmarksText.Read(seen, file).Try(out landmarks, out wrong))
        {
            return wrong;
        }

        return new TaughtPlace(file, table.Text("name") ?? "", new Site(Degrees(table, "latitude_deg"), Degrees(table, "longitude_deg"), table.Number("altitude_m") ?? 0.0), mask, landmarks);
    }

    private static Angle Degrees(StoredTable table, string key) => Angle.FromDegrees(table.Number(key) ?? 0.0);

    /// <summary>A place of the settings.</summary>
    private sealed record TaughtPlace(string File, string Name, Site Site, HorizonMask? Mask, ImmutableArray<Landmark> Landmarks);
}
