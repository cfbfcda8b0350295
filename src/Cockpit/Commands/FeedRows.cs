using System.Collections.Immutable;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Core.Signal;

namespace Cockpit.Commands;

/// <summary>One line of a feed and what was made of it.</summary>
/// <param name="Utc">When it came.</param>
/// <param name="Rate">Lines within the second before, this one included.</param>
/// <param name="Line">As it came, without what a terminal would obey.</param>
/// <param name="Sample">What was read; null where nothing was.</param>
/// <param name="Error">Why not; null where it was, or where it is a comment or empty.</param>
/// <param name="Read">What was read, for people.</param>
/// <param name="Told">How lines are read from here on; null when nothing new was settled.</param>
internal sealed record FeedRow(DateTimeOffset Utc, long Rate, string Line, SignalSample? Sample, ParseError? Error, string Read, string? Told);

/// <summary>How the lines of a feed are printed.</summary>
internal static class FeedRows
{
    private const int Longest = 400;

    /// <summary>The columns of CSV and JSON.</summary>
    public static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("utc", null, 0), new("lines_per_s", null, 0), new("line", null, 0),
        new("t", null, 0), new("level_db", null, 0), new("snr_db", null, 0), new("cn0_dbhz", null, 0), new("offset_hz", null, 0),
        new("lock", null, 0), new("frames", null, 0), new("ber", null, 0), new("clip_share", null, 0),
        new("read", null, 0), new("column", null, 0), new("problem", null, 0),
    ];

    /// <summary>The cells of a line.</summary>
    public static Cell[] CellsOf(FeedRow row)
    {
        SignalSample sample = row.Sample ?? new SignalSample();
        return
        [
            Cell.Of(row.Utc, 3), Whole(row.Rate), Cell.Of(row.Line),
            sample.Utc is { } utc ? Cell.Of(utc, 3) : Cell.None,
            Number(sample.LevelDb), Number(sample.SnrDb), Number(sample.Cn0DbHz), Number(sample.OffsetHz),
            sample.Locked is { } locked ? Cell.Of(locked) with { IsNumber = true } : Cell.None,
            sample.Frames is { } frames ? Whole(frames) : Cell.None,
            Number(sample.BitErrorRatio), Number(sample.Clipped),
            Cell.Of(row.Read.Length == 0 ? null : row.Read),
            row.Error is { } error ? Whole(error.Column) : Cell.None,
            Cell.Of(row.Error?.Message),
        ];
    }

    /// <summary>A line as it can be shown: no control characters, no more than a few hundred characters.</summary>
    public static string TextOf(ReadOnlySpan<byte> line)
    {
        string text = TextFilter.Clean(Encoding.UTF8.GetString(line[..Math.Min(line.Length, Longest)]).Replace('\t', ' '));
        return line.Length > Longest ? text + "..." : text;
    }

    /// <summary>What was read of a line, or the refusal, or why it does not count, for people.</summary>
    public static string WordsOf(FeedRow row) =>
        row.Error is { } error ? FormattableString.Invariant($"x column {error.Column}: {error.Message}")
        : row.Read.Length > 0 ? "= " + row.Read
        : row.Told is not null ? "- names the columns"
        : row.Line.AsSpan().Trim().Length == 0 || row.Line.AsSpan().TrimStart()[0] == '#' ? "- nothing: empty, or a comment"
        : "- does not count yet: five good lines in a row are needed";

    private static Cell Number(double? value) => value is { } number ? new Cell(number.ToString("R", System.Globalization.CultureInfo.InvariantCulture), true) : Cell.None;

    private static Cell Whole(long value) => new(value.ToString(System.Globalization.CultureInfo.InvariantCulture), true);
}
