namespace Cockpit.Core.Formats.Elements;

/// <summary>OMM as "keyword = value" lines; a message ends where the next CCSDS_OMM_VERS or another form begins.</summary>
/// <param name="into">Where sets and mistakes go.</param>
/// <remarks>Source: CCSDS 502.0-B-3, section 7 (KVN syntax).</remarks>
internal sealed class KvnReader(ElementGathering into)
{
    private OmmRecord? _record;
    private bool _useless;

    /// <summary>Whether a message is open.</summary>
    internal bool IsOpen => _record is not null || _useless;

    /// <summary>Whether a line is "KEYWORD = value", or means to be.</summary>
    internal static bool Is(ReadOnlySpan<char> line)
    {
        int equals = line.IndexOf('=');
        return (equals > 0 && IsKeyword(line[..equals].TrimEnd())) || LacksEquals(line);
    }

    /// <summary>Takes a line that is "KEYWORD = value", or a comment inside a message.</summary>
    internal void Take(NumberedLine line)
    {
        if (line.Text.StartsWith("COMMENT", StringComparison.Ordinal))
        {
            return;
        }

        if (LacksEquals(line.Text))
        {
            into.Complain(line.Number, line.Indent + 1, $"{Quoted.Of(line.Text)} has no '=' behind its keyword");
            _useless = true;
            return;
        }

        int equals = line.Text.IndexOf('=', StringComparison.Ordinal);
        string keyword = line.Text[..equals].TrimEnd();
        if (keyword.StartsWith("CCSDS_", StringComparison.Ordinal) && keyword.EndsWith("_VERS", StringComparison.Ordinal))
        {
            Finish();
            _useless = !keyword.Equals(OmmKeyword.Version, StringComparison.Ordinal);
            if (_useless)
            {
                into.Complain(line.Number, line.Indent + 1, $"{Quoted.Of(keyword)} opens another kind of message; expected an OMM (CCSDS_OMM_VERS)");
            }
        }

        if (_useless)
        {
            return;
        }

        _record ??= new OmmRecord(line.Number, line.Indent + 1);
        ReadOnlySpan<char> value = line.Text.AsSpan(equals + 1);
        int column = line.Indent + equals + 2 + (value.Length - value.TrimStart().Length);
        _record.Add(keyword, Split(value.Trim(), line.Number, column));
    }

    /// <summary>Nothing more of this form follows.</summary>
    internal void Finish()
    {
        if (_record is { } record && !_useless)
        {
            OmmElements.Read(record, into);
        }

        _record = null;
        _useless = false;
    }

    private static OmmValue Split(ReadOnlySpan<char> value, int line, int column)
    {
        int bracket = value.EndsWith(']') ? value.LastIndexOf('[') : -1;
        return bracket < 0
            ? new OmmValue(value.ToString(), null, line, column)
            : new OmmValue(value[..bracket].TrimEnd().ToString(), value[(bracket + 1)..^1].Trim().ToString(), line, column);
    }

    private static bool LacksEquals(ReadOnlySpan<char> line)
    {
        int blank = line.IndexOf(' ');
        return blank > 0 && !line.Contains('=') && OmmKeyword.Known.GetAlternateLookup<ReadOnlySpan<char>>().Contains(line[..blank]);
    }

    private static bool IsKeyword(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty || !char.IsAsciiLetterUpper(text[0]))
        {
            return false;
        }

        foreach (char c in text)
        {
            if (!char.IsAsciiLetterUpper(c) && !char.IsAsciiDigit(c) && c != '_')
            {
                return false;
            }
        }

        return true;
    }
}
