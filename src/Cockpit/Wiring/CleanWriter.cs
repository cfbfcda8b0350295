using System.Text;
using Cockpit.Core.Formats;

namespace Cockpit.Wiring;

/// <summary>Passes text on to a writer through the filter for outside text; only line ends and tabs stay, and the bell of our own.</summary>
/// <param name="inner">Where the text goes; not closed by this writer.</param>
/// <remarks>Everything the program prints goes through here, so no name, path or message can steer a terminal. As safe on several threads as the inner writer.</remarks>
public sealed class CleanWriter(TextWriter inner) : TextWriter
{
    private const string Allowed = "\n\r\t";

    /// <inheritdoc/>
    public override Encoding Encoding => inner.Encoding;

    /// <summary>Rings the bell of the terminal behind a writer.</summary>
    public static void Ring(TextWriter writer) => TerminalBehind(writer).Write('\a');

    /// <summary>The writer behind, for control sequences of our own; nothing from outside may go there.</summary>
    public static TextWriter TerminalBehind(TextWriter writer)
    {
        ArgumentNullException.ThrowIfNull(writer);
        return writer is CleanWriter clean ? clean.Behind : writer;
    }

    /// <inheritdoc/>
    public override void Write(char value) => inner.Write(value is '\n' or '\r' or '\t' || !IsHarmful(value) ? value : TextFilter.Replacement);

    /// <inheritdoc/>
    public override void Write(char[] buffer, int index, int count) => Write(buffer.AsSpan(index, count));

    /// <inheritdoc/>
    public override void Write(ReadOnlySpan<char> buffer)
    {
        if (TextFilter.FirstHarmful(buffer) < 0)
        {
            inner.Write(buffer);
        }
        else
        {
            inner.Write(TextFilter.Clean(buffer, Allowed));
        }
    }

    /// <inheritdoc/>
    public override void Write(string? value) => Write(value.AsSpan());

    /// <inheritdoc/>
    public override void WriteLine(string? value) => inner.WriteLine(TextFilter.Clean(value.AsSpan(), Allowed));

    /// <inheritdoc/>
    public override void WriteLine(ReadOnlySpan<char> buffer) => inner.WriteLine(TextFilter.Clean(buffer, Allowed));

    /// <inheritdoc/>
    public override Task WriteAsync(string? value) => inner.WriteAsync(TextFilter.Clean(value.AsSpan(), Allowed));

    /// <inheritdoc/>
    public override Task WriteLineAsync(string? value) => inner.WriteLineAsync(TextFilter.Clean(value.AsSpan(), Allowed));

    /// <inheritdoc/>
    public override void Flush() => inner.Flush();

    /// <inheritdoc/>
    public override Task FlushAsync() => inner.FlushAsync();

    private TextWriter Behind => inner;

    private static bool IsHarmful(char value) => TextFilter.FirstHarmful([value]) >= 0;
}
