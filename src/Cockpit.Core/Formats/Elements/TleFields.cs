using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Reads fixed columns of one TLE line; remembers the first mistake.</summary>
/// <remarks>
/// Columns count from 1. Layout: F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), section 2.
/// </remarks>
internal ref struct TleFields
{
    private readonly ReadOnlySpan<char> _line;

    internal TleFields(ReadOnlySpan<char> line)
    {
        _line = line;
        Column = 0;
        Message = null;
    }

    /// <summary>Column of the first mistake.</summary>
    internal int Column { get; private set; }

    /// <summary>The first mistake; null while there is none.</summary>
    internal string? Message { get; private set; }

    /// <summary>Notes a mistake unless there was one before.</summary>
    internal void Complain(int column, string message)
    {
        if (Message is null)
        {
            Column = column;
            Message = message;
        }
    }

    /// <summary>The text of the columns without blanks around it.</summary>
    internal readonly ReadOnlySpan<char> Text(int first, int last) => _line[(first - 1)..last].Trim(' ');

    /// <summary>The character of one column.</summary>
    internal readonly char Character(int column) => _line[column - 1];

    /// <summary>A decimal point must stand here.</summary>
    internal void Point(int column, string field)
    {
        if (_line[column - 1] != '.')
        {
            Complain(column, $"{field}: '{_line[column - 1]}' stands where the decimal point is expected");
        }
    }

    /// <summary>Columns that must be blank: text there means that the columns are shifted.</summary>
    internal void Blank(params ReadOnlySpan<int> columns)
    {
        foreach (int column in columns)
        {
            if (_line[column - 1] != ' ')
            {
                Complain(column, $"'{_line[column - 1]}' stands where a blank is expected; the columns are shifted, get the element set again");
            }
        }
    }

    /// <summary>A number written as usual, with a decimal point.</summary>
    internal double Number(int first, int last, string field)
    {
        ReadOnlySpan<char> text = Text(first, last);
        if (!double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
        {
            Complain(first, string.Create(CultureInfo.InvariantCulture, $"{field} is \"{text}\", expected a number in columns {first} to {last}"));
        }

        return value;
    }

    /// <summary>A whole number; blank counts as zero where that is allowed.</summary>
    internal int Whole(int first, int last, string field, bool mayBeBlank = true)
    {
        ReadOnlySpan<char> text = Text(first, last);
        int value = 0;
        if (!(text.IsEmpty && mayBeBlank) && !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value))
        {
            Complain(first, string.Create(CultureInfo.InvariantCulture, $"{field} is \"{text}\", expected digits in columns {first} to {last}"));
        }

        return value;
    }

    /// <summary>Digits behind an understood decimal point: "0012686" is 0.0012686.</summary>
    internal double Fraction(int first, int last, string field)
    {
        ReadOnlySpan<char> text = _line[(first - 1)..last];
        if (!long.TryParse(text, NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out long digits))
        {
            Complain(first, string.Create(CultureInfo.InvariantCulture, $"{field} is \"{text}\", expected digits in columns {first} to {last}"));
        }

        return digits / Math.Pow(10.0, last - first + 1);
    }

    /// <summary>Sign, five digits behind an understood decimal point, exponent: "-11606-4" is -0.11606e-4.</summary>
    internal double Exponential(int first, int last, string field)
    {
        ReadOnlySpan<char> text = _line[(first - 1)..last];
        Span<char> usual = stackalloc char[11];
        "+0.".CopyTo(usual);
        usual[0] = text[0] == ' ' ? '+' : text[0];
        text[1..6].CopyTo(usual[3..]);
        usual[8] = 'e';
        usual[9] = text[6] == ' ' ? '+' : text[6];
        usual[10] = text[7];
        usual[3..8].Replace(' ', '0');
        bool good = usual[0] is '+' or '-' && !usual[3..8].ContainsAnyExceptInRange('0', '9') && usual[9] is '+' or '-';
        if (!double.TryParse(usual, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !good)
        {
            Complain(first, string.Create(CultureInfo.InvariantCulture, $"{field} is \"{text}\", expected sign, five digits, signed exponent in columns {first} to {last}, such as \" 12345-4\""));
        }

        return value;
    }

    /// <summary>A catalogue number of five places, the first a letter above 99999.</summary>
    internal int CatalogNumber(int first)
    {
        ReadOnlySpan<char> text = Text(first, first + 4);
        if (TleCodes.TryCatalogNumber(text, out int number))
        {
            return number;
        }

        Complain(first, $"catalogue number is \"{text}\", expected five digits, or a letter but I and O and four digits");
        return 0;
    }
}
