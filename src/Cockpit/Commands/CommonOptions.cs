using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using Cockpit.Planning;
using Cockpit.Session.Events;
using Cockpit.Settings;
using ParseError = Cockpit.Core.Formats.ParseError;
using Cockpit.Settings.Stored;

namespace Cockpit.Commands;

/// <summary>How a command prints what it found.</summary>
public enum OutputFormat
{
    /// <summary>Columns for people.</summary>
    Table = 0,

    /// <summary>Comma-separated values with a header line.</summary>
    Csv = 1,

    /// <summary>An array of JSON objects.</summary>
    Json = 2,
}

/// <summary>The options that mean the same in every command; each call makes one for one command.</summary>
/// <remarks>A missing option is null, so that a command can tell "not given" from a value and fall back on the configuration.</remarks>
public static class CommonOptions
{
    /// <summary>The year of the first satellite.</summary>
    public const int FirstYear = 1957;

    /// <summary>The last year that anything is worked out for.</summary>
    public const int LastYear = 2200;

    /// <summary>--station LAT,LON[,ALT_M]: degrees north, degrees east, metres above the WGS 84 ellipsoid.</summary>
    public static Option<Site?> Station() => Value("--station", "LAT,LON[,ALT_M]", "Where you stand: degrees north, degrees east, metres", StationText.Read);

    /// <summary>--elements FILE: TLE or OMM in any of its forms.</summary>
    public static Option<string> Elements() => new("--elements") { HelpName = "FILE", Description = "Element sets: TLE or OMM (KVN, XML, JSON, CSV), recognised by content" };

    /// <summary>--satellite NAME|NUMBER.</summary>
    public static Option<string> Satellite() => new("--satellite") { HelpName = "NAME|NUMBER", Description = "Only this satellite: its name or catalogue number" };

    /// <summary>--at UTC: one instant.</summary>
    public static Option<DateTimeOffset?> At() => Value("--at", "UTC", "The instant, like 2026-11-25T10:15:00Z", ReadInstant);

    /// <summary>--from UTC: the start of a span.</summary>
    public static Option<DateTimeOffset?> From() => Value("--from", "UTC", "The start, like 2026-11-25T10:15:00Z; now where missing", (text, source) => InstantText.Read(text, source));

    /// <summary>--for SPAN: its length.</summary>
    public static Option<TimeSpan?> For() => Value("--for", "SPAN", "How long, like 90m, 72h or 3d", SpanText.Read);

    /// <summary>--frequency: the carrier.</summary>
    public static Option<Frequency?> Carrier() => Value("--frequency", "FREQ", "The carrier, like 1701.5MHz", FrequencyText.Read);

    /// <summary>--format table|csv|json.</summary>
    /// <param name="usual">What it is where it is missing.</param>
    public static Option<OutputFormat> Format(OutputFormat usual = OutputFormat.Table)
    {
        Option<OutputFormat> option = new("--format")
        {
            HelpName = "table|csv|json",
            Description = "How to print",
            DefaultValueFactory = _ => usual,
            CustomParser = result => Read(result, ReadFormat),
        };
        option.CompletionSources.Add("table", "csv", "json");
        return option;
    }

    /// <summary>--above ANGLE: the lowest elevation that counts.</summary>
    public static Option<Angle?> Above() =>
        Value("--above", "ANGLE", "The lowest elevation that counts, like 5deg", (text, source) => AngleText.Read(text, source, -10.0, 89.9));

    /// <summary>--horizon FILE|AZ:EL,...: what hides the sky.</summary>
    public static Option<string> Horizon() => new("--horizon")
    {
        HelpName = "FILE|AZ:EL,...",
        Description = "The skyline: a file of azimuth, elevation pairs, or 200:12,240:18,300:5",
    };

    /// <summary>--service NAME: what is received.</summary>
    public static Option<Service?> Service()
    {
        Option<Service?> option = Named<Service>(
            "--service", "NAME", $"What is received: {ServiceNames}; {CockpitSettings.Usual.Link.Service.Name} where missing", ReadService);
        option.CompletionSources.Add([.. Core.Link.Service.All.Select(service => service.Name)]);
        return option;
    }

    private static string ServiceNames => string.Join(", ", Core.Link.Service.All.Select(service => service.Name));

    private static Parsed<Service> ReadService(string text, string source) => Core.Link.Service.Named(text) is { } service
        ? service
        : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a service; choose {ServiceNames}");

    /// <summary>--time-zone NAME: whose local time.</summary>
    /// <param name="what">What it is for.</param>
    public static Option<TimeZoneInfo?> Zone(string what) =>
        Named("--time-zone", "NAME", what + ", like Europe/Berlin; that of this computer where missing", ReadZone);

    private static Parsed<TimeZoneInfo> ReadZone(string text, string source) => ZoneNames.Find(text) is { } zone
        ? zone
        : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is no time zone that this computer knows; write it like Europe/Berlin");

    /// <summary>--downlink SATELLITE=FREQ[,SERVICE], as often as wanted: what is received of which satellite.</summary>
    public static Option<Downlink[]> Downlinks() => new("--downlink")
    {
        HelpName = Downlink.Form,
        Description = "What a satellite sends, like \"PETREL 2=1701.3MHz,split-phase-665k\"; may be repeated; those of the favourites where missing",
        CustomParser = ReadDownlinks,
        DefaultValueFactory = _ => [],
    };

    private static Downlink[] ReadDownlinks(ArgumentResult result)
    {
        List<Downlink> read = [];
        foreach (string text in result.Tokens.Select(token => token.Value))
        {
            if (Downlink.Read(text, "--downlink").Try(out Downlink? one, out ParseError? error))
            {
                read.Add(one);
            }
            else
            {
                result.AddError(error.ToString());
            }
        }

        return [.. read];
    }

    /// <summary>--dut1 SECONDS: UT1 - UTC.</summary>
    public static Option<double?> Dut1() => Value("--dut1", "SECONDS", "UT1 - UTC in seconds (IERS Bulletin A); 0 where missing", ReadDut1);

    /// <summary>--set-up-error AZ,EL: how well the dish was set up.</summary>
    public static Option<SetUpError?> SetUp() => Value(
        "--set-up-error",
        "AZ,EL",
        "How far the dish may stand off at set-up, degrees of azimuth and elevation: 2,1 after a landmark and an inclinometer; as by a compass where missing",
        ReadSetUp);

    /// <summary>--refraction: adds the bending of radio waves to elevations.</summary>
    public static Option<bool> Refraction() => new("--refraction") { Description = "Add radio refraction (ITU-R P.834) to the elevations" };

    /// <summary>--over-the-top: the head tilts beyond 90 degrees.</summary>
    public static Option<bool> OverTheTop() => new("--over-the-top") { Description = "The tilt of the head goes on beyond 90 degrees: near the zenith that may be chosen in place of the big turn of the pan" };

    /// <summary>--sun skip|fly: what the plan does near the sun.</summary>
    public static Option<SunRule?> Sun() => Choice<SunRule>("--sun", "Where the satellite passes within a beam width of the sun: skip (where missing) leads the dish around it, fly follows the satellite all the same");

    /// <summary>--dish METRES: its diameter.</summary>
    public static Option<double?> Dish() => Number(
        "--dish", "METRES", FormattableString.Invariant($"Diameter of the dish in metres; {CockpitSettings.Usual.Link.Dish.DiameterMetres} where missing"), 0.2, 10.0);

    /// <summary>A number within limits.</summary>
    public static Option<double?> Number(string name, string helpName, string description, double least, double most) => Value<double>(
        name, helpName, description, (text, source) => NumberText.TryRead(text, out double number) && number >= least && number <= most
            ? number
            : new ParseError(source, 0, 0, FormattableString.Invariant($"{Quoted.Of(text)} is not a number from {least} to {most}")));

    /// <summary>A whole number within limits.</summary>
    public static Option<long?> Whole(string name, string helpName, string description, long least, long most) => Value<long>(
        name, helpName, description, (text, source) => long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number) && number >= least && number <= most
            ? number
            : new ParseError(source, 0, 0, FormattableString.Invariant($"{Quoted.Of(text)} is not a whole number from {least} to {most}")));

    /// <summary>An option whose text one of the readers of Core understands; the reader's sentence is the complaint.</summary>
    public static Option<T?> Value<T>(string name, string helpName, string description, Func<string, string, Parsed<T>> read)
        where T : struct => new(name) { HelpName = helpName, Description = description, CustomParser = result => Read(result, read) };

    /// <summary>One of the names of an enumeration, in small letters.</summary>
    public static Option<T?> Choice<T>(string name, string description)
        where T : struct, Enum
    {
        string[] words = [.. Enum.GetNames<T>().Select(word => word.ToLowerInvariant())];
        Option<T?> option = Value<T>(name, string.Join('|', words), description, (text, source) =>
            Array.IndexOf(words, text) is >= 0 and var at
                ? Enum.GetValues<T>()[at]
                : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not known; choose {string.Join(" or ", words)}"));
        option.CompletionSources.Add(words);
        return option;
    }

    /// <summary>The same for values that are objects.</summary>
    public static Option<T?> Named<T>(string name, string helpName, string description, Func<string, string, Parsed<T>> read)
        where T : class => new(name) { HelpName = helpName, Description = description, CustomParser = result => Read(result, read) };

    private static T? Read<T>(ArgumentResult result, Func<string, string, Parsed<T>> read)
        where T : notnull
    {
        string source = (result.Parent as OptionResult)?.Option.Name ?? "argument";
        if (!read(result.Tokens[0].Value, source).Try(out T? value, out ParseError? error))
        {
            result.AddError(error.ToString());
        }

        return value;
    }

    private static Parsed<DateTimeOffset> ReadInstant(string text, string source) =>
        !InstantText.Read(text, source).Try(out DateTimeOffset instant, out ParseError? error) ? error
            : instant.Year is < FirstYear or > LastYear ? new ParseError(source, 0, 0, $"{Quoted.Of(text)} is outside the years {FirstYear} to {LastYear}, where no elements are good")
            : instant;

    private static Parsed<OutputFormat> ReadFormat(string text, string source) => text switch
    {
        "table" => OutputFormat.Table,
        "csv" => OutputFormat.Csv,
        "json" => OutputFormat.Json,
        _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a format; choose table, csv or json"),
    };

    private static Parsed<double> ReadDut1(string text, string source) =>
        NumberText.TryRead(text, out double seconds) && Math.Abs(seconds) <= 1.0
            ? seconds
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not UT1 - UTC; write seconds from -1 to 1, like -0.05");

    private static Parsed<SetUpError> ReadSetUp(string text, string source)
    {
        string[] parts = text.Split(',');
        return parts.Length == 2 && NumberText.TryRead(parts[0], out double azimuth) && NumberText.TryRead(parts[1], out double elevation)
            && azimuth is >= 0.1 and <= 90.0 && elevation is >= 0.1 and <= 90.0
            ? new SetUpError(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation))
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not two errors from 0.1 to 90 degrees; write them like 2,1");
    }
}
