using Cockpit.Core.Formats;

namespace Cockpit.Commands;

/// <summary>Reads small text files that options name.</summary>
internal static class InputFiles
{
    private const long MostBytes = 16 * 1024 * 1024;

    /// <summary>All lines of a file; or the one sentence why not.</summary>
    /// <param name="path">The file.</param>
    /// <param name="option">The option that named it.</param>
    public static Parsed<string[]> ReadLines(string path, string option)
    {
        try
        {
            var file = new FileInfo(path);
            return !file.Exists ? new ParseError(path, 0, 0, $"there is no such file; give the path of a text file with {option}")
                : file.Length > MostBytes ? new ParseError(path, 0, 0, "the file is larger than 16 MiB; split it")
                : File.ReadAllLines(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new ParseError(path, 0, 0, $"the file cannot be read: {e.Message.TrimEnd('.')}; check its rights");
        }
    }
}
