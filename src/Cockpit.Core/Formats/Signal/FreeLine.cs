using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Signal;

/// <summary>A line as receivers print it for people: the first <c>word [:=] number [unit]</c> of each known word, anywhere in it.</summary>
/// <remarks>
/// Words in any case (<see cref="SignalVocabulary"/>); units dB, dBm, dBFS, dB-Hz, Hz, kHz, MHz, %; a word for lock and its contrary. A decimal comma is
/// read where digits stand on both sides of it and the number belongs to a word. What is not understood is passed over. Never throws.
/// </remarks>
internal ref struct FreeLine
{
    private const int LongestWord = 24;
    private const int LongestUnit = 6;
    private const int LongestNumber = 64;

    private readonly ReadOnlySpan<char> _text;
    private readonly SignalNames? _names;
    private ReadOnlySpan<char> _word;
    private int _at;
    private int _seen;
    private bool _other;
    private bool _negated;
    private ReadOnlySpan<char> _bracketed;

    private FreeLine(ReadOnlySpan<char> text, SignalNames? names)
    {
        _text = text;
        _names = names;
    }

    /// <summary>Reads what is known in a line.</summary>
    /// <param name="fields">Receives it.</param>
    /// <param name="line">Text, UTF-8.</param>
    /// <param name="names">Receives what the values are called; null where nobody asks.</param>
    public static void Read(ref SignalFields fields, ReadOnlySpan<byte> line, SignalNames? names = null)
    {
        Span<char> text = stackalloc char[line.Length];
        int length = Encoding.UTF8.GetChars(line, text);
        FreeLine it = new(text[..length], names);
        it.Read(ref fields);
    }

    private void Read(ref SignalFields fields)
    {
        while (_at < _text.Length)
        {
            if (char.IsAsciiLetter(_text[_at]))
            {
                TakeWord(ref fields);
            }
            else if (char.IsAsciiDigit(_text[_at]))
            {
                // A number without a word, a time stamp, an address.
                SkipRun();
                (_negated, _other) = (false, false);
            }
            else
            {
                _at++;
            }
        }
    }

    private void TakeWord(ref SignalFields fields)
    {
        ReadOnlySpan<char> word = Word();
        _word = word;
        SignalKey key = word.Length <= LongestWord ? SignalVocabulary.KeyOf(word) : SignalKey.Unknown;
        bool other = _other;
        bool negated = _negated;
        _other = SignalVocabulary.IsOther(word);
        _negated = Is(word, "not") || Is(word, "no");
        if (Is(word, "ratio") && other)
        {
            key = SignalKey.Snr;
            other = false;
        }

        int after = _at;
        bool separated = SkipSeparator();
        if (key == SignalKey.Lock && TakeLock(ref fields, negated, word, separated))
        {
            return;
        }

        bool? alone = separated ? null : SignalVocabulary.LockOf(word);
        if (key is SignalKey.Unknown or SignalKey.Time or SignalKey.Lock || other || !TakeNumber(ref fields, key))
        {
            _at = after;
            if (alone is { } locked && (word.Length > 4 && !Is(word, "search")))
            {
                Set(ref fields, SignalKey.Lock, locked != negated ? 1.0 : 0.0);
            }
        }
    }

    // "lock: yes", "sync = LOST", "not locked", "locked"; else the word is passed over.
    private bool TakeLock(ref SignalFields fields, bool negated, ReadOnlySpan<char> key, bool separated)
    {
        int before = _at;
        ReadOnlySpan<char> value = Alphanumeric();
        bool? said = SignalVocabulary.LockOf(value);
        if (said is { } locked && (separated || value.Length != 1 || !char.IsAsciiDigit(value[0]) || Is(key, "lock")))
        {
            if (Is(value, "not") || Is(value, "no"))
            {
                SkipSeparator();
                int last = _at;
                bool word = SignalVocabulary.LockOf(Alphanumeric()) is not null;
                _at = word ? _at : last;
            }

            Set(ref fields, SignalKey.Lock, locked ? 1.0 : 0.0);
            _negated = false;
            return true;
        }

        _at = before;
        if (negated && !separated)
        {
            Set(ref fields, SignalKey.Lock, 0.0);
            return true;
        }

        return false;
    }

    private bool TakeNumber(ref SignalFields fields, SignalKey key)
    {
        if (_at > 0 && char.IsAsciiLetterOrDigit(_text[_at - 1]))
        {
            return false;
        }

        ReadOnlySpan<char> bracketed = _bracketed;
        int length = NumberLength(_text[_at..], out bool comma);
        if (length == 0)
        {
            return false;
        }

        Span<char> digits = stackalloc char[Math.Min(length, LongestNumber)];
        _text.Slice(_at, digits.Length).CopyTo(digits);
        if (comma)
        {
            digits.Replace(',', '.');
        }

        double value = 0.0;
        bool good = length == digits.Length && double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
        _at += length;
        ReadOnlySpan<char> unit = Unit();
        unit = unit.IsEmpty ? bracketed : unit;
        if (!good || !SignalVocabulary.Fits(ref key, unit, out double factor))
        {
            return true;
        }

        Set(ref fields, key, value * factor);
        return true;
    }

    private void Set(ref SignalFields fields, SignalKey key, double value)
    {
        int bit = 1 << (int)key;
        if ((_seen & bit) == 0 && SignalFields.InRange(key, value) && fields.Set(key, value) is null)
        {
            _seen |= bit;
            _names?.Add(key, _word);
        }
    }

    private static int NumberLength(ReadOnlySpan<char> text, out bool comma)
    {
        comma = false;
        int at = text.Length > 0 && text[0] is '+' or '-' or '−' ? 1 : 0;
        int whole = at + Digits(text[at..]);
        if (whole == at)
        {
            return 0;
        }

        at = whole;
        if (at + 1 < text.Length && text[at] is '.' or ',' && char.IsAsciiDigit(text[at + 1]))
        {
            comma = text[at] == ',';
            at += 1 + Digits(text[(at + 1)..]);
        }

        if (at < text.Length && text[at] is 'e' or 'E')
        {
            int exponent = at + 1;
            exponent += exponent < text.Length && text[exponent] is '+' or '-' ? 1 : 0;
            int digits = exponent <= text.Length ? Digits(text[exponent..]) : 0;
            at = digits > 0 ? exponent + digits : at;
        }

        // 12:30 and 1.2.3 are times, addresses, versions.
        return at < text.Length && text[at] is ':' or '/' ? 0 : at + 1 < text.Length && text[at] == '.' && char.IsAsciiDigit(text[at + 1]) ? 0 : at;
    }

    private static int Digits(ReadOnlySpan<char> text)
    {
        int end = text.IndexOfAnyExceptInRange('0', '9');
        return end < 0 ? text.Length : end;
    }

    private ReadOnlySpan<char> Word()
    {
        int from = _at;
        while (_at < _text.Length && (char.IsAsciiLetterOrDigit(_text[_at]) || (_text[_at] is '/' or '_' && _at + 1 < _text.Length && char.IsAsciiLetterOrDigit(_text[_at + 1]))))
        {
            _at++;
        }

        return _text[from.._at];
    }

    private ReadOnlySpan<char> Alphanumeric()
    {
        int from = _at;
        while (_at < _text.Length && char.IsAsciiLetterOrDigit(_text[_at]))
        {
            _at++;
        }

        return _text[from.._at];
    }

    // The word right after a number, or after one space: letters, %, dB-Hz.
    private ReadOnlySpan<char> Unit()
    {
        int from = _at < _text.Length && _text[_at] == ' ' ? _at + 1 : _at;
        int end = from;
        while (end < _text.Length && (char.IsAsciiLetter(_text[end]) || _text[end] is '%' or '-' or '/'))
        {
            end++;
        }

        ReadOnlySpan<char> unit = _text[from..end].TrimEnd('-');
        if (from > _at && SignalVocabulary.KeyOf(unit) != SignalKey.Unknown)
        {
            return default;
        }

        return unit;
    }

    // Between a word and its value: spaces, one colon or equals sign, a unit in brackets, leading dots, quotes, the end of a tag.
    private bool SkipSeparator()
    {
        bool separated = false;
        _bracketed = default;
        while (_at < _text.Length)
        {
            char next = _text[_at];
            if (next is '(' or '[' && Bracketed() is { Length: > 0 } unit)
            {
                _bracketed = unit;
                _at += unit.Length + 2;
            }
            else if (next is ' ' or '\t' or '"' or '\'' or '[' or '(' or '>' || (next == '.' && !separated) || (!separated && next is ':' or '='))
            {
                separated |= next is ':' or '=' or '>';
                _at++;
            }
            else
            {
                break;
            }
        }

        return separated;
    }

    private readonly ReadOnlySpan<char> Bracketed()
    {
        int end = _text[_at..].IndexOfAny(')', ']');
        ReadOnlySpan<char> inside = end > 1 ? _text.Slice(_at + 1, end - 1) : default;
        return inside.Length <= LongestUnit && SignalVocabulary.IsUnit(inside) ? inside : default;
    }

    private void SkipRun()
    {
        while (_at < _text.Length && (char.IsAsciiLetterOrDigit(_text[_at]) || (_text[_at] is ':' or '-' or '.' && _at + 1 < _text.Length && char.IsAsciiLetterOrDigit(_text[_at + 1]))))
        {
            _at++;
        }
    }

    private static bool Is(ReadOnlySpan<char> text, string word) => text.Equals(word, StringComparison.OrdinalIgnoreCase);
}
