using Cockpit.Core.Formats;

namespace Cockpit.Devices.Speakers;

/// <summary>Where the user wants to hear the voice.</summary>
public enum SoundPlace
{
    /// <summary>The sound device of the machine; without one the terminal bell.</summary>
    Auto = 0,

    /// <summary>Nowhere.</summary>
    Off = 1,

    /// <summary>The terminal bell.</summary>
    Bell = 2,

    /// <summary>A WAV file.</summary>
    File = 3,
}

/// <summary>Where the user wants to hear the voice, with the path of a file.</summary>
/// <param name="Place">Where.</param>
/// <param name="Path">Path of the WAV file; empty unless that is the place.</param>
public readonly record struct SoundChoice(SoundPlace Place, string Path = "")
{
    /// <summary>What can be written, for help.</summary>
    public const string Grammar = "auto|off|bell|wav:PATH";

    private const string FilePrefix = "wav:";

    /// <summary>Reads a choice.</summary>
    /// <param name="text">One of <see cref="Grammar"/>.</param>
    /// <param name="source">Where the text is from, for the complaint.</param>
    public static Parsed<SoundChoice> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        SoundPlace? place = text switch
        {
            "auto" => SoundPlace.Auto,
            "off" => SoundPlace.Off,
            "bell" => SoundPlace.Bell,
            _ => null,
        };
        if (place is { } known) { return new SoundChoice(known); }

        return text.StartsWith(FilePrefix, StringComparison.Ordinal) && text.Length > FilePrefix.Length
            ? new SoundChoice(SoundPlace.File, text[FilePrefix.Length..])
            : new ParseError(source, 0, 0, $"\"{text}\" is no place for sound; write one of {Grammar}");
    }
}
