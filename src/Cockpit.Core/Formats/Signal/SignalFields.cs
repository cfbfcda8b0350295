using System.Runtime.CompilerServices;
using Cockpit.Core.Signal;

namespace Cockpit.Core.Formats.Signal;

/// <summary>What a signal record can hold.</summary>
internal enum SignalKey
{
    Unknown = 0,
    Time = 1,
    Level = 2,
    Snr = 3,
    Cn0 = 4,
    Offset = 5,
    Lock = 6,
    Frames = 7,
    BitErrors = 8,
    Clipped = 9,
    Press = 10,
}

/// <summary>The values of one signal record while it is read; checks ranges and that nothing is said twice.</summary>
internal struct SignalFields
{
    /// <summary>Largest whole number that a double holds together with all below it: 2^53.</summary>
    private const double LargestCount = 9007199254740992;

    /// <summary>More than any receiver's tuning error; a larger number is another quantity.</summary>
    private const double LargestOffsetHz = 1e9;

    private DateTimeOffset? _utc;
    private Values _values;
    private int _seen;
    private string? _pressed;

    /// <summary>The record so far; null before the first value.</summary>
    internal readonly SignalSample? Sample => !HasMeasurement ? null : new SignalSample
    {
        Utc = _utc,
        LevelDb = Value(SignalKey.Level),
        SnrDb = Value(SignalKey.Snr),
        Cn0DbHz = Value(SignalKey.Cn0),
        OffsetHz = Value(SignalKey.Offset),
        Locked = Value(SignalKey.Lock) is { } locked ? locked != 0 : null,
        Frames = (long?)Value(SignalKey.Frames),
        BitErrorRatio = Value(SignalKey.BitErrors),
        Clipped = Value(SignalKey.Clipped),
    };

    /// <summary>Whether a value was refused: out of range, given twice, no time.</summary>
    internal bool Refused { get; private set; }

    /// <summary>Whether something besides the time was given.</summary>
    internal readonly bool HasMeasurement => (_seen & ~((1 << (int)SignalKey.Time) | (1 << (int)SignalKey.Press))) != 0;

    /// <summary>When the record was made; null where it does not say.</summary>
    internal readonly DateTimeOffset? Utc => _utc;

    /// <summary>The operator's key that was pressed; null when none was.</summary>
    internal readonly string? Pressed => _pressed;

    /// <summary>The key with this name; unknown names are unknown keys.</summary>
    internal static SignalKey KeyOf(ReadOnlySpan<byte> name)
    {
        for (SignalKey key = SignalKey.Time; key <= SignalKey.Press; key++)
        {
            if (name.SequenceEqual(Utf8NameOf(key)))
            {
                return key;
            }
        }

        return SignalKey.Unknown;
    }

    /// <summary>The name of a key on the wire.</summary>
    internal static string NameOf(SignalKey key) => System.Text.Encoding.ASCII.GetString(Utf8NameOf(key));

    /// <summary>The name of a key on the wire, as bytes.</summary>
    internal static ReadOnlySpan<byte> Utf8NameOf(SignalKey key) => key switch
    {
        SignalKey.Time => "t"u8,
        SignalKey.Level => "level"u8,
        SignalKey.Snr => "snr"u8,
        SignalKey.Cn0 => "cn0"u8,
        SignalKey.Offset => "df"u8,
        SignalKey.Lock => "lock"u8,
        SignalKey.Frames => "frames"u8,
        SignalKey.BitErrors => "ber"u8,
        SignalKey.Clipped => "clip"u8,
        SignalKey.Press => "key"u8,
        _ => default,
    };

    /// <summary>Takes a number; null when it is good, else what is wrong.</summary>
    internal string? Set(SignalKey key, double value)
    {
        string? problem = Once(key) ?? RangeProblem(key, value);
        if (problem is not null)
        {
            Refused = true;
            return problem;
        }

        _values[(int)key] = value;
        return null;
    }

    /// <summary>Takes the time, ISO 8601 or Unix seconds; null when it is good, else what is wrong.</summary>
    internal string? SetTime(ReadOnlySpan<byte> text)
    {
        Refused = true;
        if (Once(SignalKey.Time) is { } twice)
        {
            return twice;
        }

        if (UtcText.Read(text) is not { } utc)
        {
            return $"t is {SignalTokens.Quote(text)}; expected UTC as 2026-11-25T10:15:00Z or Unix seconds, years 1970 to 2200";
        }

        Refused = false;
        _utc = utc;
        return null;
    }

    /// <summary>Whether a number can be the value of a key.</summary>
    internal static bool InRange(SignalKey key, double value) => RangeProblem(key, value) is null;

    /// <summary>Takes an operator's key; null when it is good, else what is wrong.</summary>
    internal string? SetPressed(ReadOnlySpan<byte> text)
    {
        Refused = true;
        if (Once(SignalKey.Press) is { } twice)
        {
            return twice;
        }

        foreach (string word in SignalLine.Keys)
        {
            if (System.Text.Ascii.Equals(text, word))
            {
                _pressed = word;
                Refused = false;
                return null;
            }
        }

        return $"key is {SignalTokens.Quote(text)}; expected {string.Join(", ", SignalLine.Keys)}";
    }

    private readonly double? Value(SignalKey key) => (_seen & (1 << (int)key)) != 0 ? _values[(int)key] : null;

    private string? Once(SignalKey key)
    {
        int bit = 1 << (int)key;
        if ((_seen & bit) != 0)
        {
            return $"{NameOf(key)} is given twice in one record";
        }

        _seen |= bit;
        return null;
    }

    private static string? RangeProblem(SignalKey key, double value)
    {
        bool good = key switch
        {
            SignalKey.Level or SignalKey.Snr or SignalKey.Cn0 => value is >= -250 and <= 250,
            SignalKey.Offset => Math.Abs(value) <= LargestOffsetHz,
            SignalKey.Lock => value is 0 or 1,
            SignalKey.Frames => value is >= 0 and <= LargestCount && value == Math.Floor(value),
            _ => value is >= 0 and <= 1,
        };
        return good ? null : $"{NameOf(key)} is {SignalTokens.Exact(value)}; expected {Expectation(key)}";
    }

    private static string Expectation(SignalKey key) => key switch
    {
        SignalKey.Level or SignalKey.Snr => "-250 to 250 dB",
        SignalKey.Cn0 => "-250 to 250 dB-Hz",
        SignalKey.Offset => "-1e9 to 1e9 Hz",
        SignalKey.Lock => "0, 1, true or false",
        SignalKey.Frames => "a whole number, not negative",
        _ => "a number from 0 to 1",
    };

    [InlineArray((int)SignalKey.Clipped + 1)]
    private struct Values
    {
        private double _first;
    }
}
