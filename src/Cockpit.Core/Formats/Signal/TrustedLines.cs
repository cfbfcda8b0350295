using System.Text.Unicode;
using Cockpit.Core.Signal;

namespace Cockpit.Core.Formats.Signal;

/// <summary>The lines of one feed in order: what they have told of their grammar holds for the next ones, and what is no text costs their trust.</summary>
/// <remarks>
/// Bare numbers count from the fifth good line in a row. Samples of a receiver contain a digit between two line ends now and then, so after bytes
/// that are no text nothing counts before five good lines in a row; a feed that has been good for five is not doubted for one or two that were damaged
/// on the way. A header line names the columns after it. Words for values are fixed by the first lines that agree. Not for several threads at once.
/// </remarks>
/// <param name="columns">The columns that a person told; null where the lines say it themselves.</param>
public sealed class TrustedLines(SignalColumns? columns = null)
{
    private const int LinesToTrust = 5;

    private const int DamagedToDoubt = 3;

    private const string Samples = "this looks like IQ samples: add ?format=ci16&rate=3000000, or what they are, to the address";

    private readonly AgreedNames _agreed = new();
    private SignalColumns? _columns = columns;
    private string? _untold = columns?.Words;
    private bool _trusted;
    private bool _doubted;
    private bool _bare;
    private int _good;
    private int _damaged;

    /// <summary>What the values of the last line are called on it.</summary>
    public SignalNames Names { get; } = new();

    /// <summary>How lines are read from the last one on, for people: <c>reads 'SNR' as snr</c>; null when nothing new was settled by it.</summary>
    public string? Told { get; private set; }

    /// <summary>What bytes look like that make no lines; null when they may be text.</summary>
    /// <param name="bytes">As they came.</param>
    public static string? Suspicion(ReadOnlySpan<byte> bytes) => LooksLikeSamples(bytes) ? Samples : null;

    /// <summary>Reads the next line.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="source">Name of the feed, for the error.</param>
    /// <returns>What it says; nothing while it is good and does not count yet. Never throws.</returns>
    public SignalLine Read(ReadOnlySpan<byte> line, string source)
    {
        Told = null;
        Names.Clear();
        if (!IsText(line))
        {
            return NoText(line, source);
        }

        SignalLine read = ReadText(line, source);
        if (read.IsNothing)
        {
            return read;
        }

        if (read.Sample is not { } sample)
        {
            _good = read.Error is null ? _good : 0;
            return read;
        }

        _damaged = 0;
        _good = Math.Min(_good + 1, LinesToTrust);
        _trusted |= _good == LinesToTrust;
        _doubted &= !_trusted;
        return _trusted || (!_doubted && !read.IsBareNumber) ? Counted(sample, read) : default;
    }

    private SignalLine Counted(SignalSample sample, SignalLine read)
    {
        if (read.IsBareNumber)
        {
            Told = _bare ? null : "reads bare numbers as level";
            _bare = true;
            return read;
        }

        SignalSample? kept = _agreed.Keep(sample, Names);
        Told = _untold ?? _agreed.Told;
        _untold = null;
        return kept is null ? default : ReferenceEquals(kept, sample) ? read : SignalLine.Measured(kept, read.Pressed);
    }

    private SignalLine ReadText(ReadOnlySpan<byte> line, string source)
    {
        ReadOnlySpan<byte> text = line.Trim(" \t\r"u8);
        if (_columns is not null && !text.IsEmpty && text[0] is not ((byte)'#' or (byte)'{'))
        {
            SignalFields fields = default;
            (int at, string? problem) = _columns.Read(ref fields, line);
            if (problem is null)
            {
                return SignalLine.Measured(fields.Sample);
            }

            if (_columns.Told)
            {
                // The header above columns that a person has told is no mistake.
                return SignalColumns.OfHeader(line) is null ? SignalLine.Mistake(new ParseError(source, 1, at + 1, problem)) : default;
            }
        }

        if (SignalColumns.OfHeader(line) is { } header)
        {
            _columns = header;
            Told = header.Words;
            return default;
        }

        SignalLine read = SignalLine.Read(line, source, names: Names);
        return read.Error is not null && SignalColumns.Unnamed(line) is > 0 and var count
            ? SignalLine.Mistake(new ParseError(source, 1, 1, FormattableString.Invariant($"{count} columns without names; say what they are behind the address, like ?columns=time,level,snr, empty what is not read")))
            : read;
    }

    private SignalLine NoText(ReadOnlySpan<byte> line, string source)
    {
        _damaged++;
        if (!_trusted || _damaged >= DamagedToDoubt)
        {
            (_doubted, _trusted, _good) = (true, false, 0);
        }

        int at = Math.Max(0, line.IndexOfAnyExceptInRange((byte)' ', (byte)'~'));
        return SignalLine.Mistake(LooksLikeSamples(line)
            ? new ParseError(source, 1, 1, Samples)
            : new ParseError(source, 1, at + 1, $"{SignalTokens.Quote(line[at..])}; the line was damaged on the way, or is no text"));
    }

    // Control characters but tab, form feed, escape and the like, and what UTF-8 does not allow.
    private static bool IsText(ReadOnlySpan<byte> line) =>
        !line.ContainsAnyInRange((byte)0, (byte)8) && !line.ContainsAnyInRange((byte)14, (byte)26) && Utf8.IsValid(line);

    // Of random bytes five in eight are no printable ASCII, of a damaged line few are; small samples of two bytes are half zeros.
    private static bool LooksLikeSamples(ReadOnlySpan<byte> bytes)
    {
        int odd = 0;
        foreach (byte next in bytes)
        {
            odd += next is < 9 or (> 13 and < 32) or > 126 ? 1 : 0;
        }

        return odd * 4 >= bytes.Length && odd > 0 && !Utf8.IsValid(bytes) | bytes.Contains((byte)0);
    }
}
