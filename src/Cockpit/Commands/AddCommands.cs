using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using Cockpit.Settings.Stored;

namespace Cockpit.Commands;

/// <summary>cockpit place add, dish add, favourite add: the only commands that write into settings that are there.</summary>
internal static class AddCommands
{
    /// <summary>cockpit place add NAME --station LAT,LON[,ALT_M].</summary>
    public static Command Place()
    {
        Argument<string> name = Name("What you call it");
        Option<Site?> station = CommonOptions.Station();
        Option<string> skyline = new("--horizon") { HelpName = "FILE|AZ:EL,...", Description = "What hides the sky there" };
        Option<string> zone = new("--time-zone") { HelpName = "NAME", Description = "For local time, like Europe/Berlin" };
        station.Required = true;
        Command command = new(
            "add",
            """
            Add a place to the settings; every comment and empty line in them stays.

            Example:
              cockpit place add meadow --station 47.8,11.2,520 --horizon 200:12,240:18,300:5
            """)
        {
            name, station, skyline, zone,
        };
        command.SetAction(parsed =>
        {
            Dictionary<(string, string), string> known = new() { [("places", "name")] = parsed.GetRequiredValue(name) };
            foreach ((string key, double value) in parsed.GetValue(station) is { } site ? SettingsPlaces.Numbers(site) : [])
            {
                known[("places", key)] = value.ToString("R", CultureInfo.InvariantCulture);
            }

            Put(known, ("places", "skyline"), parsed.GetValue(skyline));
            Put(known, ("places", "time_zone"), parsed.GetValue(zone));
            return SettingsAdder.Run(parsed, "places", "name", known);
        });
        return command;
    }

    /// <summary>cockpit dish add NAME --dish METRES.</summary>
    public static Command Dish()
    {
        Argument<string> name = Name("What you call it");
        Option<double?> diameter = CommonOptions.Dish();
        Option<double?> noise = CommonOptions.Number("--noise-figure", "DB", "Noise figure of the first amplifier in dB", 0, 20);
        Option<string> mount = new("--mount") { HelpName = "pan-tilt|free", Description = "In which axes the hand moves it" };
        mount.AcceptOnlyFromAmong("pan-tilt", "free");
        diameter.Required = true;
        Command add = new(
            "add",
            """
            Add a dish to the settings; every comment and empty line in them stays.

            Example:
              cockpit dish add grid --dish 0.8 --noise-figure 0.6 --mount pan-tilt
            """)
        {
            name, diameter, noise, mount,
        };
        add.SetAction(parsed =>
        {
            Dictionary<(string, string), string> known = new() { [("dishes", "name")] = parsed.GetRequiredValue(name) };
            Put(known, ("dishes", "diameter_m"), Number(parsed.GetValue(diameter)));
            Put(known, ("dishes", "noise_figure_db"), Number(parsed.GetValue(noise)));
            Put(known, ("dishes", "mount"), parsed.GetValue(mount));
            return SettingsAdder.Run(parsed, "dishes", "name", known);
        });
        return new Command("dish", "The dishes of the settings") { add };
    }

    /// <summary>cockpit favourite add NAME|NUMBER.</summary>
    public static Command Favourite()
    {
        Argument<string> satellite = Name("Name or catalogue number of the satellite");
        Option<Frequency?> carrier = CommonOptions.Carrier();
        Option<Service?> service = CommonOptions.Service();
        Option<string> note = new("--note") { HelpName = "TEXT", Description = "A word for yourself" };
        Command add = new(
            "add",
            """
            Add a satellite that you follow to the settings; every comment and empty line in them stays.

            Example:
              cockpit favourite add "PETREL 2" --frequency 1701.5MHz --service split-phase-665k
            """)
        {
            satellite, carrier, service, note,
        };
        add.SetAction(parsed =>
        {
            Dictionary<(string, string), string> known = new() { [("favourites", "satellite")] = parsed.GetRequiredValue(satellite) };
            Put(known, ("favourites", "note"), parsed.GetValue(note));
            Put(known, ("downlinks", "frequency_mhz"), Number(parsed.GetValue(carrier)?.Hertz / 1e6));
            Put(known, ("downlinks", "service"), parsed.GetValue(carrier) is null ? null : parsed.GetValue(service)?.Name);
            return SettingsAdder.Run(parsed, "favourites", "satellite", known);
        });
        return new Command("favourite", "The satellites that you follow, in the settings") { add };
    }

    private static Argument<string> Name(string says) => new("name") { HelpName = "NAME", Description = says };

    private static string? Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static void Put(Dictionary<(string, string), string> known, (string, string) key, string? value)
    {
        if (value is not null)
        {
            known[key] = value;
        }
    }
}
