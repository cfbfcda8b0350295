using System.Globalization;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;
using Cockpit.Session.Events;

namespace Cockpit.Commands;

/// <summary>Prints every line of a feed with what was made of it; in a table no more than people can follow.</summary>
/// <param name="output">For the rows.</param>
/// <param name="complaints">For what happens to the feed.</param>
/// <param name="format">How rows are printed.</param>
/// <param name="grammar">The reader of the lines, for the names.</param>
/// <param name="clock">What the rows are stamped by.</param>
internal sealed class FeedPrinter(TextWriter output, TextWriter complaints, OutputFormat format, SignalGrammar grammar, TimeProvider clock) : ILineTaker
{
    private const int MostInTable = 20;

    private readonly Lock _gate = new();
    private readonly OutputRows _rows = new(output, format, FeedRows.Columns);
    private readonly RowRate _rate = new(clock);
    private readonly SortedDictionary<string, string> _names = new(StringComparer.Ordinal);
    private string? _told;
    private long _passedOver;
    private long _second;
    private int _shown;
    private bool _ended;

    /// <summary>Lines so far.</summary>
    public long Lines { get; private set; }

    /// <summary>Of these, lines that gave something.</summary>
    public long Read { get; private set; }

    /// <summary>Of these, lines that were refused.</summary>
    public long Refused { get; private set; }

    /// <summary>Called when the feed is gone.</summary>
    public Action? WhenLost { get; init; }

    /// <summary>Prints what stands above the rows.</summary>
    public void Begin()
    {
        if (format == OutputFormat.Table)
        {
            output.WriteLine("UTC         lines/s  the line, and below it what is read (=), why not (x), or nothing (-)");
        }
        else
        {
            _rows.Begin();
        }
    }

    /// <summary>Ends the rows; what comes afterwards is not printed.</summary>
    /// <returns>What it was all in all, one sentence.</returns>
    public string End()
    {
        lock (_gate)
        {
            _ended = true;
            PrintPassedOver();
            if (format != OutputFormat.Table)
            {
                _rows.End();
            }

            string? names = _names.Count > 0 ? "reads " + string.Join(", ", _names.Select(name => $"'{name.Value}' as {name.Key}")) : _told;
            return string.Create(CultureInfo.InvariantCulture, $"{Lines} lines: {Read} read, {Refused} refused{(names is null ? "" : "; " + names)}");
        }
    }

    /// <inheritdoc/>
    public void Connected(string where) => Tell($"lines come from {where}");

    /// <inheritdoc/>
    public void Lost(string reason)
    {
        Tell(reason);
        WhenLost?.Invoke();
    }

    /// <inheritdoc/>
    public void Dropped(string reason)
    {
        lock (_gate)
        {
            Refused++;
            Lines++;
        }

        Tell(reason);
    }

    /// <inheritdoc/>
    public void Came(ReadOnlySpan<byte> line, in LineReading reading)
    {
        SignalSample? sample = (reading.Reading as SignalMeasured)?.Sample;
        string read = sample is null ? "" : SampleWords.Of(sample, grammar.Names);
        lock (_gate)
        {
            if (_ended)
            {
                return;
            }

            Lines++;
            Read += sample is null ? 0 : 1;
            Refused += reading.Error is null ? 0 : 1;
            foreach (SignalName name in sample is null ? [] : grammar.Names.All)
            {
                _names.TryAdd(name.Key, name.Name);
            }

            _told = reading.Told ?? _told;
            Print(new FeedRow(clock.GetUtcNow(), _rate.Came(), FeedRows.TextOf(line), sample, reading.Error, read, reading.Told));
        }
    }

    /// <summary>Says something about the feed, beside the rows.</summary>
    public void Tell(string sentence)
    {
        lock (_gate)
        {
            if (!_ended)
            {
                complaints.WriteLine(sentence);
            }
        }
    }

    private void Print(FeedRow row)
    {
        if (format != OutputFormat.Table)
        {
            _rows.Add(FeedRows.CellsOf(row));
            return;
        }

        long second = row.Utc.ToUnixTimeSeconds();
        _shown = second == _second ? _shown + 1 : 1;
        _second = second;
        if (_shown > MostInTable)
        {
            _passedOver++;
            return;
        }

        PrintPassedOver();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{row.Utc:HH:mm:ss.f}  {row.Rate,7}  {row.Line}"));
        output.WriteLine($"{"",21}{FeedRows.WordsOf(row)}");
        if (row.Told is { } how)
        {
            output.WriteLine($"{"",21}* from here on: {how}");
        }
    }

    private void PrintPassedOver()
    {
        if (_passedOver > 0)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{"",21}... {_passedOver} more lines, too many to show"));
            _passedOver = 0;
        }
    }
}
