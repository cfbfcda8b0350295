using System.Text.Unicode;

namespace Cockpit.Core.Formats.Signal;

/// <summary>The lines of one feed in order: after bytes that are no text nothing counts until five good lines have come in a row.</summary>
/// <remarks>
/// Samples of a receiver contain a digit between two line ends now and then; five in a row they do not. A feed that has been good for five
/// lines is not doubted for one or two that were damaged on the way. Not for several threads at once.
/// </remarks>
public sealed class TrustedLines
{
    private const int LinesToTrust = 5;

    private const int DamagedToDoubt = 3;

    /// <summary>What the values of the last line are called on it.</summary>
    public SignalNames Names { get; } = new();

    private int _missing;
    private int _good;
    private int _damaged;

    /// <summary>Reads the next line.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="source">Name of the feed, for the error.</param>
    /// <returns>What it says; nothing while it is good and does not count yet. Never throws.</returns>
    public SignalLine Read(ReadOnlySpan<byte> line, string source)
    {
        if (!IsText(line))
        {
            _damaged++;
            if (_good < LinesToTrust || _damaged >= DamagedToDoubt)
            {
                (_missing, _good) = (LinesToTrust, 0);
            }

            return SignalLine.Mistake(new ParseError(source, 1, 1, "these bytes are no text; if they are IQ samples, measure them with cockpit meter ADDRESS?format=ci16&rate=..."));
        }

        SignalLine read = SignalLine.Read(line, source, names: Names);
        if (read.Sample is not null)
        {
            _damaged = 0;
            _good = Math.Min(_good + 1, LinesToTrust);
        }

        if (_missing == 0 || read.IsNothing)
        {
            return read;
        }

        _good = 0;
        _missing = read.Error is null ? _missing - 1 : LinesToTrust;
        return read.Error is null ? default : read;
    }

    // Control characters but tab, form feed, escape and the like, and what UTF-8 does not allow.
    private static bool IsText(ReadOnlySpan<byte> line) =>
        !line.ContainsAnyInRange((byte)0, (byte)8) && !line.ContainsAnyInRange((byte)14, (byte)26) && Utf8.IsValid(line);
}
