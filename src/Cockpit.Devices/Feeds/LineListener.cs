using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Who is told of the lines of a feed; one call at a time.</summary>
public interface ILineTaker
{
    /// <summary>Lines may come now.</summary>
    /// <param name="where">The address, for people.</param>
    void Connected(string where);

    /// <summary>No more lines for now.</summary>
    /// <param name="reason">What happened, one sentence.</param>
    void Lost(string reason);

    /// <summary>A line came.</summary>
    /// <param name="line">Without its end; valid during the call only.</param>
    /// <param name="reading">What it says.</param>
    void Came(ReadOnlySpan<byte> line, in LineReading reading);

    /// <summary>Bytes were dropped that are no line.</summary>
    /// <param name="reason">Why, one sentence.</param>
    void Dropped(string reason);
}

/// <summary>Makes lines of the bytes of a port, and reads them.</summary>
/// <param name="grammar">How a line is read.</param>
/// <param name="feed">Name of the feed.</param>
/// <param name="taker">Told of each line.</param>
public sealed class LineListener(ILineGrammar grammar, string feed, ILineTaker taker) : IPortListener
{
    private readonly LineFramer _framer = new(grammar.LongestLine);
    private long _tooLong;
    private long _endless;

    /// <inheritdoc/>
    public void Connected(string where, bool startsInside = false)
    {
        _endless = 0;
        _framer.Restart(startsInside);
        taker.Connected(where);
    }

    /// <inheritdoc/>
    public void Lost(string reason) => taker.Lost(reason);

    /// <inheritdoc/>
    public void Received(ReadOnlySpan<byte> bytes, bool wholeRecords = false)
    {
        _framer.Add(bytes, Take);
        if (wholeRecords)
        {
            _framer.EndOfRecord(Take);
        }

        RejectTooLong(bytes);
    }

    /// <summary>A line that goes on and on is told again for each length of a line, so that the feed counts as unreadable and not as silent.</summary>
    private void RejectTooLong(ReadOnlySpan<byte> bytes)
    {
        bool isNew = _tooLong < _framer.TooLong;
        for (; _tooLong < _framer.TooLong; _tooLong++)
        {
            taker.Dropped(grammar.Suspicion(bytes) ?? string.Create(CultureInfo.InvariantCulture, $"a line is longer than {grammar.LongestLine} bytes; send one short record a line"));
        }

        if (isNew || _framer.Endless < _endless)
        {
            _endless = _framer.Endless;
        }
        else if (_framer.Endless >= _endless + grammar.LongestLine)
        {
            _endless = _framer.Endless;
            taker.Dropped(grammar.Suspicion(bytes) ?? string.Create(CultureInfo.InvariantCulture, $"{_endless} bytes came without the end of a line; send one short record a line"));
        }
    }

    private void Take(ReadOnlySpan<byte> line) => taker.Came(line, grammar.Read(line, feed));
}
