using System.Buffers;
using System.Buffers.Text;
using System.Collections.Immutable;
using System.Text;
using System.Text.Unicode;
using Cockpit.Core.Signal;

namespace Cockpit.Core.Formats.Signal;

/// <summary>
/// One line of a signal feed: a measurement, nothing (a comment or an empty line), or a mistake.
/// </summary>
/// <remarks>
/// The grammar, as ABNF (RFC 5234; quoted text matches in either case, WSP is a space or a tab):
/// <code>
/// line    = *WSP [ number / pairs / json / comment ] *WSP
/// number  = decimal [ *WSP unit ]                          ; a relative level
/// decimal = [ "+" / "-" ] 1*DIGIT [ "." *DIGIT ] [ "e" [ "+" / "-" ] 1*DIGIT ]
/// unit    = "dB" / "dBm" / "dBFS" / "dBHz"
/// pairs   = pair *( 1*WSP pair )        pair = key "=" value
/// json    = one object on one line, RFC 8259
/// comment = "#" anything
/// </code>
/// Keys: t (ISO 8601, UTC unless it has an offset; or Unix seconds), level, snr (dB), cn0 (dB-Hz), df (Hz), lock (0, 1, true, false),
/// frames, ber, clip, and key (peaked, moved, not-moved, search: an operator's key). Unknown keys are ignored, but one known key besides t must be there. Columns count bytes from 1.
/// A line outside this grammar is read as it is meant for people: the first <c>word [:=] number [unit]</c> of each known word in any case,
/// words for lock and its contrary, the last name of a path in JSON. What was understood and is wrong stays a mistake.
/// </remarks>
public readonly record struct SignalLine
{
    /// <summary>Longest line that is read, bytes without its line end.</summary>
    public const int LongestLine = 4096;

    private static readonly SearchValues<byte> BareCharacters = SearchValues.Create("+-.0123456789eE \t\r\uFEFF"u8);

    /// <summary>Byte order mark of UTF-8, which some editors put before the first line.</summary>
    private static ReadOnlySpan<byte> Mark => [0xEF, 0xBB, 0xBF];

    private SignalLine(SignalSample? sample, DateTimeOffset? utc, string? pressed, ParseError? error, bool bare = false)
    {
        IsBareNumber = bare;
        Sample = sample;
        Utc = utc;
        Pressed = pressed;
        Error = error;
    }

    /// <summary>A number alone, without a word or a unit that says what it is: a level, if the lines around it are as good.</summary>
    public bool IsBareNumber { get; }

    /// <summary>The operator's keys that a record may carry, as they are written.</summary>
    public static ImmutableArray<string> Keys { get; } = ["peaked", "moved", "not-moved", "search"];

    /// <summary>When the record was made, UTC; null where it does not say.</summary>
    public DateTimeOffset? Utc { get; }

    /// <summary>The operator's key in it, one of <see cref="Keys"/>; null when there is none.</summary>
    public string? Pressed { get; }

    /// <summary>What was measured; null when the line holds nothing or a mistake.</summary>
    public SignalSample? Sample { get; }

    /// <summary>The mistake; null when there is none.</summary>
    public ParseError? Error { get; }

    /// <summary>A comment or an empty line.</summary>
    public bool IsNothing => Sample is null && Error is null && Utc is null && Pressed is null;

    /// <summary>Reads a line.</summary>
    /// <param name="line">UTF-8 without line end; at most <see cref="LongestLine"/> bytes.</param>
    /// <param name="source">Name of the feed, for the error.</param>
    /// <param name="number">Number of the line from 1, for the error.</param>
    /// <param name="names">Receives what the values are called on the line; null where nobody asks.</param>
    /// <returns>The measurement, nothing, or the first mistake. Never throws.</returns>
    public static SignalLine Read(ReadOnlySpan<byte> line, string source, int number = 1, SignalNames? names = null)
    {
        return ReadFields(line, source, number, timed: false, names);
    }

    /// <summary>A line that is a mistake.</summary>
    internal static SignalLine Mistake(ParseError error) => new(null, null, null, error);

    /// <summary>A line that is a measurement; nothing where there is none.</summary>
    internal static SignalLine Measured(SignalSample? sample, string? pressed = null) => new(sample, sample?.Utc, pressed, null);

    private static SignalFields? ReadFreely(ReadOnlySpan<byte> line, SignalNames? names)
    {
        SignalFields fields = default;
        ReadOnlySpan<byte> text = line.Trim(" \t\r"u8);
        if (line.Length > LongestLine || text.ContainsAnyInRange((byte)0, (byte)8) || text.ContainsAnyInRange((byte)14, (byte)26))
        {
            return null;
        }

        bool json = !text.IsEmpty && text[0] == (byte)'{';
        if (json ? !FreeJson.Read(ref fields, text, names) : !Utf8.IsValid(text))
        {
            return null;
        }

        if (!json)
        {
            FreeLine.Read(ref fields, text, names);
        }

        return fields.HasMeasurement ? fields : null;
    }

    /// <summary>Reads a line of a stream that is its own clock: every record must have a time, and needs nothing else.</summary>
    /// <inheritdoc cref="Read(ReadOnlySpan{byte}, string, int, SignalNames)"/>
    public static SignalLine ReadTimed(ReadOnlySpan<byte> line, string source, int number)
    {
        SignalLine read = ReadFields(line, source, number, timed: true);
        return read is { IsNothing: false, Error: null, Utc: null }
            ? new(null, null, null, new ParseError(source, number, 1, "the record has no time; give t= as UTC like 2026-11-25T10:15:00Z or Unix seconds"))
            : read;
    }

    private static SignalLine ReadFields(ReadOnlySpan<byte> line, string source, int number, bool timed, SignalNames? names = null)
    {
        names?.Clear();
        SignalFields fields = default;
        (int column, string? problem) = ReadInto(ref fields, line, timed);

        // A value that was understood and is wrong is told; what was not understood may be meant for people.
        if (problem is not null && !fields.Refused && ReadFreely(line, names) is { } free)
        {
            (fields, problem) = (free, null);
        }

        return problem is not null
            ? new(null, null, null, new ParseError(source, number, column, problem))
            : new(fields.Sample, fields.Utc, fields.Pressed, null, IsBare(line));
    }

    private static bool IsBare(ReadOnlySpan<byte> line) => !line.IsEmpty && !line.ContainsAnyExcept(BareCharacters);

    private static (int Column, string? Problem) ReadInto(ref SignalFields fields, ReadOnlySpan<byte> line, bool timed)
    {
        if (line.Length > LongestLine)
        {
            return (LongestLine + 1, "the line is longer than 4096 bytes; send one short record a line");
        }

        int start = line.StartsWith(Mark) ? Mark.Length : 0;
        start += SignalTokens.SpaceAt(line[start..]);
        ReadOnlySpan<byte> rest = line[start..].TrimEnd(" \t\r"u8);
        if (rest.IsEmpty || rest[0] == (byte)'#')
        {
            return default;
        }

        (int at, string? problem) = rest[0] switch
        {
            (byte)'{' => SignalJson.Read(ref fields, rest),
            (byte)'+' or (byte)'-' or (byte)'.' or (byte)',' or (>= (byte)'0' and <= (byte)'9') => ReadNumber(ref fields, rest),
            _ => ReadPairs(ref fields, rest),
        };
        if (problem is null && !fields.HasMeasurement && fields.Pressed is null && !timed)
        {
            problem = "no known value in this record; give at least one of level, snr, cn0, df, lock, frames, ber, clip, key (lower case)";
        }

        return (start + at + 1, problem);
    }

    private static (int At, string? Problem) ReadNumber(ref SignalFields fields, ReadOnlySpan<byte> text)
    {
        (int length, string? problem) = SignalTokens.ReadDecimal(text, out double value);
        if (problem is not null)
        {
            return (length, problem);
        }

        int unit = length + SignalTokens.SpaceAt(text[length..]);
        if (unit < text.Length && !SignalTokens.IsUnit(text[unit..]))
        {
            return (unit, SignalTokens.AfterNumber(text[unit..]));
        }

        return (0, fields.Set(SignalKey.Level, value));
    }

    private static (int At, string? Problem) ReadPairs(ref SignalFields fields, ReadOnlySpan<byte> text)
    {
        int at = 0;
        while (at < text.Length)
        {
            int end = text[at..].IndexOfAny((byte)' ', (byte)'\t');
            ReadOnlySpan<byte> pair = end < 0 ? text[at..] : text.Slice(at, end);
            (int inside, string? problem) = ReadPair(ref fields, pair);
            if (problem is not null)
            {
                return (at + inside, problem);
            }

            at += pair.Length;
            at += SignalTokens.SpaceAt(text[at..]);
        }

        return default;
    }

    private static (int At, string? Problem) ReadPair(ref SignalFields fields, ReadOnlySpan<byte> pair)
    {
        int equals = pair.IndexOf((byte)'=');
        int keyLength = SignalTokens.KeyLength(pair);
        if (equals < 0 && SignalTokens.IsNotANumber(pair))
        {
            return (0, SignalTokens.NotANumber);
        }

        if (equals <= 0 || keyLength != equals)
        {
            return (keyLength, $"expected a number, key=value or a JSON object, found {SignalTokens.Quote(pair)}");
        }

        (int inside, string? problem) = ReadValue(ref fields, SignalFields.KeyOf(pair[..equals]), pair[(equals + 1)..]);
        return (equals + 1 + inside, problem);
    }

    private static (int At, string? Problem) ReadValue(ref SignalFields fields, SignalKey key, ReadOnlySpan<byte> value)
    {
        if (key == SignalKey.Unknown)
        {
            return default;
        }

        if (value.IsEmpty)
        {
            return (0, $"{SignalFields.NameOf(key)} has no value; write {SignalFields.NameOf(key)}=value without spaces");
        }

        if (key == SignalKey.Time)
        {
            return (0, fields.SetTime(value));
        }

        if (key == SignalKey.Press)
        {
            return (0, fields.SetPressed(value));
        }

        if (key == SignalKey.Lock && Utf8Parser.TryParse(value, out bool locked, out int used) && used == value.Length)
        {
            return (0, fields.Set(key, locked ? 1 : 0));
        }

        (int length, string? problem) = SignalTokens.ReadDecimal(value, out double number);
        if (problem is not null)
        {
            return (length, problem);
        }

        bool mayHaveUnit = key is SignalKey.Level or SignalKey.Snr or SignalKey.Cn0;
        return length == value.Length || (mayHaveUnit && SignalTokens.IsUnit(value[length..]))
            ? (0, fields.Set(key, number))
            : (length, SignalTokens.AfterNumber(value[length..]));
    }

    /// <summary>Writes a measurement as pairs, the way <see cref="Read"/> reads it back exactly.</summary>
    /// <param name="sample">What to write; at least one value besides the time, else the line is not readable.</param>
    /// <returns>One line without line end, ASCII.</returns>
    public static string Format(SignalSample sample)
    {
        StringBuilder line = new();
        Put(line, "t", sample.Utc is { } utc ? UtcText.Format(utc) : null);
        Put(line, "level", SignalTokens.Exact(sample.LevelDb));
        Put(line, "snr", SignalTokens.Exact(sample.SnrDb));
        Put(line, "cn0", SignalTokens.Exact(sample.Cn0DbHz));
        Put(line, "df", SignalTokens.Exact(sample.OffsetHz));
        Put(line, "lock", sample.Locked is { } locked ? (locked ? "1" : "0") : null);
        Put(line, "frames", SignalTokens.Exact(sample.Frames));
        Put(line, "ber", SignalTokens.Exact(sample.BitErrorRatio));
        Put(line, "clip", SignalTokens.Exact(sample.Clipped));
        return line.ToString();
    }

    private static void Put(StringBuilder line, string key, string? value)
    {
        if (value is not null)
        {
            line.Append(line.Length == 0 ? "" : " ").Append(key).Append('=').Append(value);
        }
    }
}
