using System.Text;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;

namespace Cockpit.Wiring;

/// <summary>Writes to a terminal that does not take UTF-8: each sign by its seven-bit twin, columns stay.</summary>
/// <param name="inner">The terminal; not closed by this writer.</param>
public sealed class SevenBitWriter(TextWriter inner) : TextWriter
{
    /// <inheritdoc/>
    public override Encoding Encoding => inner.Encoding;

    /// <summary>A writer that suits where it goes: a file or a pipe gets everything, a terminal what its locale says it can show.</summary>
    /// <param name="writer">The output.</param>
    /// <param name="isRedirected">Whether it goes to no terminal.</param>
    public static TextWriter For(TextWriter writer, bool isRedirected) =>
        isRedirected || DrawingChoice.IsUtf8(Environment.GetEnvironmentVariable, Console.OutputEncoding, OperatingSystem.IsWindows()) ? writer : new SevenBitWriter(writer);

    /// <inheritdoc/>
    public override void Write(char value) => inner.Write(value == '\a' || value == '\u001b' ? value : SevenBitSigns.Of(value));

    /// <inheritdoc/>
    public override void Flush() => inner.Flush();
}
