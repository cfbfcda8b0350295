using System.Text;

namespace Cockpit.Wiring;

/// <summary>The results of a command cannot be written any more: the disk is full, the other side is gone.</summary>
public sealed class OutputException : IOException
{
    /// <summary>Makes it.</summary>
    public OutputException(IOException inner)
        : base(inner?.Message, inner)
    {
    }
}

/// <summary>Where results go; that they cannot be written is told apart from every other trouble with files.</summary>
/// <param name="output">Where they go in the end; the caller closes it.</param>
public sealed class OutputWriter(TextWriter output) : TextWriter(output.FormatProvider)
{
    /// <summary>Where they go in the end.</summary>
    public TextWriter Behind => output;

    /// <inheritdoc/>
    public override Encoding Encoding => output.Encoding;

    /// <inheritdoc/>
    public override void Write(char value) => Guarded(() => output.Write(value));

    /// <inheritdoc/>
    public override void Write(string? value) => Guarded(() => output.Write(value));

    /// <inheritdoc/>
    public override void Write(char[] buffer, int index, int count) => Guarded(() => output.Write(buffer, index, count));

    /// <inheritdoc/>
    public override void WriteLine(string? value) => Guarded(() => output.WriteLine(value));

    /// <inheritdoc/>
    public override void Flush() => Guarded(output.Flush);

    private static void Guarded(Action write)
    {
        try
        {
            write();
        }
        catch (IOException failure)
        {
            throw new OutputException(failure);
        }
    }
}
