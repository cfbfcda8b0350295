using Cockpit.Core.Formats;

namespace Cockpit.Calendars;

/// <summary>Writes a calendar to disk, whole or not at all.</summary>
public static class CalendarFile
{
    /// <summary>Most passes of one calendar: some 10 kB of memory each, and no calendar program shows more of use.</summary>
    public const int MostPasses = 5000;

    /// <summary>Why so many passes do not go into a calendar; null when they do.</summary>
    /// <param name="passes">How many there are.</param>
    public static string? Validate(int passes) => passes <= MostPasses
        ? null
        : FormattableString.Invariant($"--ics: {passes} passes are more than the {MostPasses} of one calendar; choose with --satellite, or make --for shorter or --above higher");

    /// <summary>Writes the text beside the file first, then puts it in its place.</summary>
    /// <param name="path">The file; one that exists is replaced.</param>
    /// <param name="text">The calendar.</param>
    /// <returns>Null when it stands; else the one sentence why not.</returns>
    public static ParseError? Write(string path, string text)
    {
        string beside = path + ".part";
        try
        {
            File.WriteAllText(beside, text);
            File.Move(beside, path, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new ParseError(path, 0, 0, $"the calendar cannot be written: {FileWords.Of(e)}; choose another file with --ics");
        }
    }
}
