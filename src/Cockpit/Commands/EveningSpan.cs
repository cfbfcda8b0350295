using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Planning;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that say which evening is meant: from now, from an instant, or a day of the calendar at the place.</summary>
internal sealed class EveningSpan
{
    private static readonly TimeSpan UsualSpan = TimeSpan.FromHours(24);
    private static readonly TimeSpan LongestSpan = TimeSpan.FromDays(366);

    private readonly Option<DateTimeOffset?> _from = CommonOptions.From();
    private readonly Option<TimeSpan?> _for = CommonOptions.For();
    private readonly Option<DateOnly?> _date = CommonOptions.Value<DateOnly>("--date", "YYYY-MM-DD", "This day from midnight to midnight, local time, in place of the 24 hours from now", ReadDate);
    private readonly Option<TimeZoneInfo?> _zone = CommonOptions.Zone("The zone of local time");

    /// <summary>Gives the options to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _from, _for, _date, _zone })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Local time.</summary>
    public WallTime Clock(ParseResult parsed) => new(parsed.GetValue(_zone) ?? TimeZoneInfo.Local);

    /// <summary>From when to when, UTC.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="now">Where no start was given.</param>
    public Parsed<(DateTimeOffset From, DateTimeOffset To)> Read(ParseResult parsed, DateTimeOffset now)
    {
        if (parsed.GetValue(_date) is not null && parsed.GetValue(_from) is not null)
        {
            return new ParseError(_date.Name, 0, 0, $"give {_date.Name} or {_from.Name}, not both");
        }

        TimeSpan? span = parsed.GetValue(_for);
        if (span > LongestSpan)
        {
            return new ParseError(_for.Name, 0, 0, "at most 366d can be searched; elements are not good for longer");
        }

        if (parsed.GetValue(_date) is { } date)
        {
            (DateTimeOffset start, DateTimeOffset end) = LocalDay.Of(date, parsed.GetValue(_zone) ?? TimeZoneInfo.Local);
            return (start, span is { } length ? start + length : end);
        }

        DateTimeOffset from = parsed.GetValue(_from) ?? now;
        return from.Year is < CommonOptions.FirstYear or > CommonOptions.LastYear
            ? new ParseError(_from.Name, 0, 0, $"the start is outside the years {CommonOptions.FirstYear} to {CommonOptions.LastYear}, where no elements are good")
            : (from, from + (span ?? UsualSpan));
    }

    /// <summary>Reads a date like 2026-11-26.</summary>
    public static Parsed<DateOnly> ReadDate(string text, string source) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date) && date.Year is >= CommonOptions.FirstYear and < CommonOptions.LastYear
            ? date
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a date of the years {CommonOptions.FirstYear} to {CommonOptions.LastYear - 1}; write it like 2026-11-26");
}
