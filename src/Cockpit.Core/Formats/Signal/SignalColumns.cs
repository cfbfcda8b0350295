using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Signal;

/// <summary>Lines of delimited columns: which column is which value, told by the person or by a header line; comma, semicolon or tab.</summary>
/// <remarks>
/// A decimal comma is read where the delimiter is not one. An empty field is no value. A time that is no UTC date and time is passed over.
/// Quotes around a field are taken off (RFC 4180); a delimiter between quotes is not looked for.
/// </remarks>
public sealed class SignalColumns
{
    /// <summary>More columns than this are no line of a receiver.</summary>
    public const int Most = 64;

    private static ReadOnlySpan<byte> Delimiters => "\t;,"u8;

    private readonly ImmutableArray<SignalColumn> _columns;
    private readonly bool _told;
    private byte _delimiter;

    internal SignalColumns(ImmutableArray<SignalColumn> columns, byte delimiter, bool told)
    {
        _columns = columns;
        _delimiter = delimiter;
        _told = told;
    }

    /// <summary>Whether a person told them, so that every line must have them.</summary>
    public bool Told => _told;

    /// <summary>Which column is read as what, for people.</summary>
    public string Words => "reads " + string.Join(", ", _columns.Select(Words1).Where(word => word.Length > 0));

    /// <summary>Reads the names as a person gives them, separated by commas; an empty one is passed over: <c>time,,level</c>.</summary>
    /// <param name="text">The names.</param>
    /// <param name="source">What they belong to, for the error.</param>
    public static Parsed<SignalColumns> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] names = text.Split(',');
        SignalColumn[] columns = [.. names.Select(name => SignalColumn.Of(name))];
        for (int at = 0; at < columns.Length; at++)
        {
            if (columns[at].Key == SignalKey.Unknown && names[at].AsSpan().Trim().Length > 0)
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(names[at])} is no value; name the columns time, level, snr, cn0, df, lock, frames, ber or clip, and leave empty what is not read");
            }
        }

        return columns.Length > Most || !columns.Any(column => column.IsMeasurement) || Doubles(columns)
            ? new ParseError(source, 0, 0, $"{Quoted.Of(text)} names no value or one twice; write like ?columns=time,,level, each value once, {Most} columns at most")
            : new SignalColumns([.. columns], 0, told: true);
    }

    /// <summary>The columns that a header line names; null when the line is none.</summary>
    /// <param name="line">Text, UTF-8.</param>
    internal static SignalColumns? OfHeader(ReadOnlySpan<byte> line)
    {
        byte delimiter = DelimiterOf(line);
        if (delimiter == 0)
        {
            return null;
        }

        string[] names = Encoding.UTF8.GetString(line).TrimStart('\uFEFF', ' ', '#').Split((char)delimiter);
        SignalColumn[] columns = [.. names.Select(name => SignalColumn.Of(name))];
        int known = columns.Count(column => column.Key != SignalKey.Unknown);
        bool header = names.Length <= Most && columns.Any(column => column.IsMeasurement) && !Doubles(columns)
            && (known >= 2 || columns.Any(column => column.Key is not (SignalKey.Unknown or SignalKey.Lock)))
            && !names.Any(name => name.AsSpan().IndexOfAny(":=") >= 0 || StartsAsNumber(name.AsSpan().Trim(" \"")));
        return header ? new SignalColumns([.. columns], delimiter, told: false) : null;
    }

    /// <summary>How many columns of numbers a line has that nobody has named; 0 when it is another kind of line.</summary>
    internal static int Unnamed(ReadOnlySpan<byte> line)
    {
        byte delimiter = DelimiterOf(line);
        if (delimiter == 0)
        {
            return 0;
        }

        string[] fields = Encoding.UTF8.GetString(line).Split((char)delimiter);
        int numbers = fields.Count(field => StartsAsNumber(field.AsSpan().Trim(" \"")));

        // "-61,2" is one number with a decimal comma.
        bool several = fields.Length > 2 || delimiter != (byte)',' || fields.All(field => field.Contains('.', StringComparison.Ordinal));
        return several && numbers >= 2 ? fields.Length : 0;
    }

    /// <summary>Reads a line.</summary>
    /// <param name="fields">Receives the values.</param>
    /// <param name="line">Text, UTF-8.</param>
    /// <returns>Where the mistake is and what it is; no sentence when there is none.</returns>
    internal (int At, string? Problem) Read(ref SignalFields fields, ReadOnlySpan<byte> line)
    {
        byte delimiter = _delimiter != 0 ? _delimiter : DelimiterOf(line);
        int start = 0;
        for (int at = 0; at < _columns.Length; at++)
        {
            int end = delimiter == 0 ? -1 : line[start..].IndexOf(delimiter);
            ReadOnlySpan<byte> field = end < 0 ? line[start..] : line.Slice(start, end);
            if (_columns[at].Take(ref fields, field, delimiter != (byte)',') is { } problem)
            {
                return (start + SignalTokens.SpaceAt(field), problem);
            }

            if (end < 0 && at + 1 < _columns.Length)
            {
                return (line.Length, string.Create(CultureInfo.InvariantCulture, $"found {at + 1} {(at == 0 ? "column" : "columns")}, expected {_columns.Length} separated by comma, semicolon or tab"));
            }

            start += end + 1;
        }

        if (!fields.HasMeasurement)
        {
            return (0, "all columns that are read are empty");
        }

        _delimiter = delimiter;
        return default;
    }

    private static byte DelimiterOf(ReadOnlySpan<byte> line)
    {
        foreach (byte delimiter in Delimiters)
        {
            if (line.Contains(delimiter))
            {
                return delimiter;
            }
        }

        return 0;
    }

    private static bool Doubles(SignalColumn[] columns) =>
        columns.Where(column => column.Key != SignalKey.Unknown).GroupBy(column => column.Key).Any(group => group.Count() > 1);

    private static bool StartsAsNumber(ReadOnlySpan<char> text) => text.Length > 0 && char.IsAsciiDigit(text.TrimStart("+-") is [var first, ..] ? first : ' ');

    private string Words1(SignalColumn column, int at) => column.Key == SignalKey.Unknown
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $"column {at + 1}{(_told || column.Name.Length == 0 ? "" : $" '{column.Name}'")} as {SignalFields.NameOf(column.Key)}");
}
