using Cockpit.Core.Formats;

namespace Cockpit.Reports;

/// <summary>Writes a file whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>Writes the text beside the file first, then puts it in its place.</summary>
    /// <param name="path">The file; one that exists is replaced.</param>
    /// <param name="text">What goes into it, UTF-8.</param>
    /// <param name="what">What it is, for the sentence: "the page".</param>
    /// <param name="option">The option that named it.</param>
    /// <returns>Null when it stands; else the one sentence why not.</returns>
    public static ParseError? Write(string path, string text, string what, string option) => Write(path, System.Text.Encoding.UTF8.GetBytes(text), what, option);

    /// <summary>Writes the bytes beside the file first, then puts them in its place; who may read the old one may read the new one, and nobody else.</summary>
    /// <param name="path">The file; one that exists is replaced.</param>
    /// <param name="content">What goes into it.</param>
    /// <param name="what">What it is, for the sentence: "the page".</param>
    /// <param name="option">The option that named it.</param>
    /// <returns>Null when it stands; else the one sentence why not.</returns>
    public static ParseError? Write(string path, byte[] content, string what, string option)
    {
        string beside = path + ".part";
        try
        {
            File.WriteAllBytes(beside, content);
            if (!OperatingSystem.IsWindows() && File.Exists(path))
            {
                File.SetUnixFileMode(beside, File.GetUnixFileMode(path));
            }

            File.Move(beside, path, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            Remove(beside);
            return new ParseError(path, 0, 0, $"{what} cannot be written: {FileWords.Of(e)}; choose another file with {option}");
        }
    }

    /// <summary>The same for what is written to a stream; what is left of a try that failed is taken away.</summary>
    /// <param name="path">The file; one that exists is replaced.</param>
    /// <param name="write">Writes all of it.</param>
    /// <param name="what">What it is, for the sentence.</param>
    /// <param name="option">The option that named it.</param>
    /// <returns>Null when it stands; else the one sentence why not.</returns>
    public static async Task<ParseError?> WriteAsync(string path, Func<Stream, Task> write, string what, string option)
    {
        ArgumentNullException.ThrowIfNull(write);
        string beside = path + ".part";
        try
        {
            FileStream stream = new(beside, FileMode.Create, FileAccess.ReadWrite, FileShare.Read);
            await using (stream.ConfigureAwait(false))
            {
                await write(stream).ConfigureAwait(false);
            }

            File.Move(beside, path, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            Remove(beside);
            return new ParseError(path, 0, 0, $"{what} cannot be written: {FileWords.Of(e)}; choose another file with {option}");
        }
    }

    private static void Remove(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            // It is being told already that nothing can be written there.
        }
    }
}
