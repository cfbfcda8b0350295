using System.Text;

namespace Cockpit.Wiring;

/// <summary>Has everything printed and read in UTF-8 where the system's usual is another one; what was before is there again at the end.</summary>
/// <remarks>
/// On Windows a console has a code page of one alphabet, and what goes into a file or a pipe has it too: JSON and
/// calendars have to be UTF-8 (RFC 8259, RFC 5545), and names would be lost. Elsewhere the locale is left as it is.
/// </remarks>
public sealed class Utf8Console : IDisposable
{
    private readonly Encoding _output = Console.OutputEncoding;
    private readonly Encoding _input = Console.InputEncoding;

    private Utf8Console()
    {
        Console.OutputEncoding = Encoding.UTF8;

        // Keys come as UTF-16: read as bytes of UTF-8, older consoles lose every letter that is not ASCII (from memory).
        Console.InputEncoding = Console.IsInputRedirected ? Encoding.UTF8 : Encoding.Unicode;
    }

    /// <summary>Begins it.</summary>
    /// <returns>Null where nothing has to be changed, or the console does not let itself be changed.</returns>
    public static Utf8Console? Begin()
    {
        try
        {
            return OperatingSystem.IsWindows() ? new Utf8Console() : null;
        }
        catch (IOException)
        {
            // The console keeps its code page, and everything goes there in seven bits.
            return null;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            Console.OutputEncoding = _output;
            Console.InputEncoding = _input;
        }
        catch (IOException)
        {
            // The console is gone, and its code page with it.
        }
    }
}
