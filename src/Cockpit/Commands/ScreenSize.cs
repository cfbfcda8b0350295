using System.Globalization;
using Cockpit.Core.Formats;

namespace Cockpit.Commands;

/// <summary>A size of the screen in cells.</summary>
/// <param name="Columns">20 to 500.</param>
/// <param name="Rows">6 to 200.</param>
public readonly record struct ScreenSize(int Columns, int Rows)
{
    /// <summary>The usual terminal.</summary>
    public static ScreenSize Usual { get; } = new(80, 24);

    /// <summary>Reads a size, for instance 120x40.</summary>
    /// <param name="text">Columns and rows with an x between them.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<ScreenSize> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] parts = text.Split('x');
        return parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int columns)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int rows)
            && columns is >= 20 and <= 500
            && rows is >= 6 and <= 200
                ? new ScreenSize(columns, rows)
                : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a size from 20x6 to 500x200; write it like 120x40");
    }
}
