namespace Cockpit.Core.Formats.Elements;

/// <summary>One value of an OMM and where it stands.</summary>
/// <param name="Text">The value as written, without quotes and blanks around it.</param>
/// <param name="Unit">The unit as written; null where there is none.</param>
/// <param name="Line">Line of the value.</param>
/// <param name="Column">Column of the value.</param>
internal readonly record struct OmmValue(string Text, string? Unit, int Line, int Column);

/// <summary>Keywords and values of one OMM, whatever form they came in.</summary>
/// <param name="line">Where the message begins.</param>
/// <param name="column">Column there.</param>
internal sealed class OmmRecord(int line, int column)
{
    private readonly Dictionary<string, OmmValue> _values = new(StringComparer.Ordinal);

    /// <summary>Where the message begins.</summary>
    internal int Line => line;

    /// <summary>Column there.</summary>
    internal int Column => column;

    /// <summary>A keyword that came twice, with the second value; null when none did.</summary>
    internal (string Keyword, OmmValue Second)? Twice { get; private set; }

    internal bool IsEmpty => _values.Count == 0;

    /// <summary>Keeps a value of a keyword that matters; the first counts.</summary>
    internal void Add(string keyword, OmmValue value)
    {
        if (OmmKeyword.Known.Contains(keyword) && !_values.TryAdd(keyword, value))
        {
            Twice ??= (keyword, value);
        }
    }

    /// <summary>The value of a keyword; null when it is missing or empty.</summary>
    internal OmmValue? Find(string keyword) =>
        _values.TryGetValue(keyword, out OmmValue value) && value.Text.Length > 0 ? value : null;
}
