using Cockpit.Core.Formats;

namespace Cockpit.Commands;

/// <summary>Opens and reads the files that options name.</summary>
internal static class InputFiles
{
    private const long MostBytes = 16 * 1024 * 1024;

    /// <summary>Opens a file for reading; or the one sentence why not.</summary>
    /// <param name="path">The file.</param>
    /// <param name="option">The option that named it.</param>
    /// <param name="what">What it should be, like "a text file".</param>
    public static Parsed<FileStream> Open(string path, string option, string what)
    {
        if (path.Length == 0)
        {
            return new ParseError(option, 0, 0, $"the path is empty; give the path of {what}");
        }

        try
        {
            return Directory.Exists(path)
                ? new ParseError(path, 0, 0, $"that is a folder; give the path of {what} with {option}")
                : File.OpenRead(path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return new ParseError(path, 0, 0, $"there is no such file; give the path of {what} with {option}");
        }
        catch (Exception e) when (IsTrouble(e))
        {
            return Trouble(path, e);
        }
    }

    /// <summary>All lines of a file; or the one sentence why not.</summary>
    /// <param name="path">The file.</param>
    /// <param name="option">The option that named it.</param>
    public static Parsed<string[]> ReadLines(string path, string option)
    {
        if (!Open(path, option, "a text file").Try(out FileStream? stream, out ParseError? error))
        {
            return error;
        }

        try
        {
            using StreamReader reader = new(stream);
            List<string> lines = [];
            long left = MostBytes;
            while (reader.ReadLine() is { } line)
            {
                lines.Add(line);
                left -= line.Length + 1;
                if (left < 0)
                {
                    return new ParseError(path, 0, 0, "the file is larger than 16 MiB; split it");
                }
            }

            return lines.ToArray();
        }
        catch (Exception e) when (IsTrouble(e))
        {
            return Trouble(path, e);
        }
    }

    /// <summary>Whether a failure is the file's, not the program's.</summary>
    public static bool IsTrouble(Exception failure) => failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException;

    /// <summary>The sentence for it.</summary>
    public static ParseError Trouble(string path, Exception failure) => new(path, 0, 0, $"the file cannot be read: {FileWords.Of(failure)}; check its rights");
}
