using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats.Options;

namespace Cockpit.Settings.Stored;

/// <summary>What the settings say for an option of a command.</summary>
/// <param name="Option">Its name, with the dashes.</param>
/// <param name="Text">Its value; null for an option without one.</param>
/// <param name="Line">Where the settings say it.</param>
public sealed record StoredOption(string Option, string? Text, int Line)
{
    /// <summary>As a word of a command line.</summary>
    public string Word => Text is null ? Option : $"{Option}={Text}";

    /// <summary>All that the settings say, for the place and the dish in use.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="satellite">The satellite that was asked for; null for none in particular.</param>
    public static ImmutableArray<StoredOption> Of(StoredSettings settings, string? satellite)
    {
        ArgumentNullException.ThrowIfNull(settings);
        List<StoredOption> options = [];
        if (settings.Place is { } place)
        {
            options.Add(Station(place));
        }

        IEnumerable<StoredTable> single = settings.Root.Tables.Where(table => !table.Schema.Many);
        foreach (StoredTable table in new[] { settings.Place, settings.Dish }.OfType<StoredTable>().Concat(single))
        {
            options.AddRange(table.Schema.Keys.Select(key => Of(settings, table, key)).OfType<StoredOption>());
        }

        if (settings.Root.One("elements") is { } elements && elements.Text("file") is null && elements.Values.GetValueOrDefault("address") is { } address)
        {
            options.Add(new StoredOption("--elements", ElementsFile(settings), address.Line));
        }

        StoredTable? favourite = satellite is null ? null : settings.Favourites.FirstOrDefault(one => string.Equals(one.Text("satellite"), satellite, StringComparison.OrdinalIgnoreCase));
        if (favourite?.One("downlinks") is { } downlink)
        {
            options.AddRange(Downlink(downlink));
        }

        return [.. options];
    }

    /// <summary>The file of the element sets: what the settings say, else a usual place for what was fetched (XDG Base Directory Specification on Linux).</summary>
    public static string ElementsFile(StoredSettings? settings) => settings?.Root.One("elements")?.Text("file") is { } file
        ? settings.Resolve(file)
        : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "cockpit", "elements.txt");

    /// <summary>The favourites, for a command that takes several satellites.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="option">The option that takes them.</param>
    public static IEnumerable<StoredOption> Satellites(StoredSettings settings, string option = "--satellite")
    {
        ArgumentNullException.ThrowIfNull(settings);
        return settings.Favourites.Select(favourite => new StoredOption(option, favourite.Text("satellite"), favourite.Line));
    }

    /// <summary>The downlinks of the favourites, for a command that takes several satellites.</summary>
    public static IEnumerable<StoredOption> Downlinks(StoredSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return from favourite in settings.Favourites
               from downlink in favourite.All("downlinks")
               let service = downlink.Text("service") is { } name ? "," + name : ""
               select new StoredOption("--downlink", $"{favourite.Text("satellite")}={downlink.Text("frequency_mhz")}MHz{service}", downlink.Line);
    }

    private static StoredOption Station(StoredTable place)
    {
        string height = place.Text("altitude_m") is { } metres ? "," + metres : "";
        return new StoredOption("--station", $"{place.Text("latitude_deg")},{place.Text("longitude_deg")}{height}", place.Line);
    }

    private static StoredOption? Of(StoredSettings settings, StoredTable table, SettingKey key)
    {
        if (key.Option is not { } option || table.Values.GetValueOrDefault(key.Name) is not { } value)
        {
            return null;
        }

        if (key.Kind == SettingKind.Switch)
        {
            return string.Equals(value.Text, "true", StringComparison.Ordinal) ? new StoredOption(option, null, value.Line) : null;
        }

        if (string.Equals(option, "--signal", StringComparison.Ordinal))
        {
            return new StoredOption(option, Signal(table, value.Text), value.Line);
        }

        bool isPath = key.IsPath && !HorizonText.Read(value.Text, "").Try(out _, out _);
        return new StoredOption(option, isPath ? settings.Resolve(value.Text) : value.Text, value.Line);
    }

    /// <summary>The address with what is known of the samples behind it; one that says so itself stays as it is.</summary>
    private static string Signal(StoredTable receiver, string address)
    {
        if (receiver.Text("iq_format") is not { } format || address.Contains('?', StringComparison.Ordinal))
        {
            return address;
        }

        string rate = receiver.Number("sample_rate") is { } perSecond ? string.Create(CultureInfo.InvariantCulture, $"&rate={perSecond}") : "";
        string center = receiver.Number("center_mhz") is { } megahertz ? string.Create(CultureInfo.InvariantCulture, $"&center={megahertz}MHz") : "";
        return $"{address}?format={format}{rate}{center}";
    }

    private static IEnumerable<StoredOption> Downlink(StoredTable downlink)
    {
        if (downlink.Number("frequency_mhz") is { } megahertz)
        {
            yield return new StoredOption("--frequency", string.Create(CultureInfo.InvariantCulture, $"{megahertz}MHz"), downlink.Line);
        }

        if (downlink.Values.GetValueOrDefault("service") is { } service)
        {
            yield return new StoredOption("--service", service.Text, service.Line);
        }
    }
}
