using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;

namespace Cockpit.Commands;

/// <summary>The instants that cockpit look is asked about.</summary>
/// <param name="Count">How many.</param>
/// <param name="UtcOf">The n-th, from 0, as UTC; null when they count from each epoch.</param>
/// <param name="Minutes">Minutes since each satellite's epoch; used when <paramref name="UtcOf"/> is null.</param>
public sealed record LookInstants(int Count, Func<int, DateTimeOffset>? UtcOf, ImmutableArray<double> Minutes)
{
    /// <summary>The moments for one satellite, UTC and minutes since its epoch.</summary>
    public IEnumerable<(JulianDate Utc, double Minutes)> For(ElementSet elements)
    {
        for (int k = 0; k < Count; k++)
        {
            if (UtcOf is { } utcOf)
            {
                var utc = JulianDate.FromUtc(utcOf(k));
                yield return (utc, utc.MinutesSince(elements.Epoch));
            }
            else
            {
                yield return (elements.Epoch.AddMinutes(Minutes[k]), Minutes[k]);
            }
        }
    }

    /// <summary>The moments that are given as UTC.</summary>
    public IEnumerable<DateTimeOffset> AsUtc() => UtcOf is { } utcOf ? Enumerable.Range(0, Count).Select(utcOf) : [];
}

/// <summary>The options that say which instants: one of four ways, or now.</summary>
/// <param name="clock">Gives "now".</param>
internal sealed class LookInstantOptions(TimeProvider clock)
{
    private const int MostInstants = 10_000_000;

    private readonly Option<ImmutableArray<DateTimeOffset>?> _at = CommonOptions.Value("--at", "UTC[,UTC...]", "Instants, like 2026-11-25T10:15:00Z", InstantText.ReadList);
    private readonly Option<DateTimeOffset?> _from =
        CommonOptions.Value("--from", "UTC", "The first of several instants, like 2026-11-25T10:15:00Z", (text, source) => InstantText.Read(text, source));
    private readonly Option<TimeSpan?> _step = CommonOptions.Value("--step", "SPAN", "With --from: time between instants, like 10s (the default)", SpanText.Read);
    private readonly Option<int?> _count = CommonOptions.Value<int>("--count", "N", "With --from: how many instants", ReadCount);
    private readonly Option<TimeSpan?> _for = CommonOptions.For();
    private readonly Option<string> _times = new("--times") { HelpName = "FILE", Description = "A file of instants, one UTC a line" };
    private readonly Option<ImmutableArray<double>?> _sinceEpoch =
        CommonOptions.Value("--since-epoch", "MIN[,MIN...]", "Minutes since the epoch of the elements, written --since-epoch=-10,0,1440", MinutesText.Read);

    public void AddTo(Command command)
    {
        foreach (Option option in (ReadOnlySpan<Option>)[_at, _from, _step, _count, _for, _times, _sinceEpoch])
        {
            command.Options.Add(option);
        }
    }

    public Parsed<LookInstants> Read(ParseResult parsed)
    {
        bool stepping = parsed.GetValue(_from) is not null;
        int ways = Convert.ToInt32(parsed.GetValue(_at) is not null) + Convert.ToInt32(stepping)
            + Convert.ToInt32(parsed.GetValue(_times) is not null) + Convert.ToInt32(parsed.GetValue(_sinceEpoch) is not null);
        if (ways > 1)
        {
            return new ParseError("look", 0, 0, "instants are given in two ways; use one of --at, --from, --times, --since-epoch");
        }

        if (!stepping && (parsed.GetValue(_step) is not null || parsed.GetValue(_count) is not null || parsed.GetValue(_for) is not null))
        {
            return new ParseError("look", 0, 0, "--step, --count and --for need --from; write the first instant with it");
        }

        return stepping ? Stepping(parsed)
            : parsed.GetValue(_at) is { } list ? Of(list)
            : parsed.GetValue(_sinceEpoch) is { } minutes ? new LookInstants(minutes.Length, null, minutes)
            : parsed.GetValue(_times) is { } path ? FromFile(path)
            : Of([clock.GetUtcNow()]);
    }

    private static Parsed<int> ReadCount(string text, string source) =>
        int.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out int count) && count is > 0 and <= MostInstants
            ? count
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a count; write a whole number from 1 to {MostInstants}");

    private static LookInstants Of(ImmutableArray<DateTimeOffset> list) => new(list.Length, k => list[k], []);

    private static Parsed<LookInstants> FromFile(string path)
    {
        if (!InputFiles.ReadLines(path, "--times").Try(out string[]? lines, out ParseError? error)
            || !InstantText.ReadLines(lines, path).Try(out ImmutableArray<DateTimeOffset> list, out error))
        {
            return error;
        }

        return Of(list);
    }

    private Parsed<LookInstants> Stepping(ParseResult parsed)
    {
        DateTimeOffset from = parsed.GetValue(_from)!.Value;
        TimeSpan step = parsed.GetValue(_step) ?? TimeSpan.FromSeconds(10);
        double count = parsed.GetValue(_count) ?? (parsed.GetValue(_for) is { } span ? Math.Floor(span / step) + 1.0 : 1.0);
        if (count > MostInstants)
        {
            return new ParseError("--for", 0, 0, $"that makes more than {MostInstants} instants; make --step longer");
        }

        bool fits = (count - 1) * step.TotalDays < (DateTimeOffset.MaxValue - from).TotalDays;
        return fits
            ? new LookInstants((int)count, k => from + (k * step), [])
            : new ParseError("--count", 0, 0, "that leads beyond the year 9999; make --step or --count smaller");
    }
}
