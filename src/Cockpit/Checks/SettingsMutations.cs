using Cockpit.Core.Formats;
using Cockpit.Settings.Stored;

namespace Cockpit.Checks;

/// <summary>Reads damaged settings, one after the other; an exception is what is looked for.</summary>
/// <param name="seed">Where the sequence of damage starts.</param>
public sealed class SettingsMutations(ulong seed)
{
    private static readonly string Small = SettingsText.New(new Dictionary<(string, string), string>
    {
        [("places", "name")] = "meadow",
        [("places", "latitude_deg")] = "47.8",
        [("places", "longitude_deg")] = "11.2",
        [("places", "skyline")] = "200:12,240:18,300:5",
        [("favourites", "satellite")] = "PETREL 2",
        [("downlinks", "frequency_mhz")] = "1701.5",
        [("screen", "theme")] = "night",
    });

    private const string Dense = """"
        version = 1
        place = "roof"
        dish = 'grid'
        places = [{ name = "roof", latitude_deg = 50, longitude_deg = 10.4, altitude_m = 380 }, { name = "hill", latitude_deg = -1e1, longitude_deg = 0x10 }]
        receiver.signal = "tcp://localhost:4700"
        [[dishes]]
        name = "grid"
        diameter_m = 8e-1
        over_the_top = true
        sun = "fly"
        [[favourites]]
        satellite = 99129
        [[favourites.downlinks]]
        frequency_mhz = 1_701.3
        note = """two
        lines"""
        [sound]
        voice = "words"
        """";

    private readonly TextMutator _mutator = new([Small, Dense], seed);

    /// <summary>Files read.</summary>
    public int Number { get; private set; }

    /// <summary>Good values in them.</summary>
    public long Values { get; private set; }

    /// <summary>Mistakes told.</summary>
    public long Mistakes { get; private set; }

    /// <summary>Mistakes whose line is not in the file.</summary>
    public long Misplaced { get; private set; }

    /// <summary>The file that was read last.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Reads the next one.</summary>
    public void Next()
    {
        Text = _mutator.Next();
        Number++;
        StoredSettings settings = SettingsReader.Read(Text, "settings.toml");
        Values += Count(settings.Root) + StoredOption.Of(settings, "PETREL 2").Length;
        int lines = Text.Count(letter => letter is '\n' or '\r') + 1;
        foreach (ParseError mistake in settings.Mistakes)
        {
            Mistakes++;
            Misplaced += mistake.Line < 0 || mistake.Line > lines || mistake.Message.Length == 0 ? 1 : 0;
        }
    }

    private static long Count(StoredTable table) => table.Values.Count + table.Tables.Sum(Count);
}
