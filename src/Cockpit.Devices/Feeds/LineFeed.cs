using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Readings that another program sends line by line, in any grammar, through any port.</summary>
/// <param name="port">Not yet open; the feed owns it.</param>
/// <param name="name">Name of the feed.</param>
/// <param name="grammar">How a line is read.</param>
public sealed class LineFeed(IPort port, string name, ILineGrammar grammar) : PortFeed(port, name)
{
    /// <inheritdoc/>
    protected override IPortListener Listen(FeedPublisher publisher) => new Listener(publisher, Name, grammar);

    /// <summary>Makes lines of bytes and readings of lines.</summary>
    private sealed class Listener(FeedPublisher publisher, string feed, ILineGrammar grammar) : IPortListener
    {
        private readonly LineFramer _framer = new(grammar.LongestLine);
        private long _tooLong;
        private long _endless;

        public void Connected(string where, bool startsInside = false)
        {
            _endless = 0;
            _framer.Restart(startsInside);
            publisher.Connected(where);
        }

        public void Lost(string reason) => publisher.Lost(reason);

        public void Received(ReadOnlySpan<byte> bytes, bool wholeRecords = false)
        {
            _framer.Add(bytes, Take);
            if (wholeRecords)
            {
                _framer.EndOfRecord(Take);
            }

            RejectTooLong();
        }

        /// <summary>A line that goes on and on is told again for each length of a line, so that the feed counts as unreadable and not as silent.</summary>
        private void RejectTooLong()
        {
            bool isNew = _tooLong < _framer.TooLong;
            for (; _tooLong < _framer.TooLong; _tooLong++)
            {
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"a line is longer than {grammar.LongestLine} bytes; send one short record a line"));
            }

            if (isNew || _framer.Endless < _endless)
            {
                _endless = _framer.Endless;
            }
            else if (_framer.Endless >= _endless + grammar.LongestLine)
            {
                _endless = _framer.Endless;
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"{_endless} bytes came without the end of a line; send one short record a line"));
            }
        }

        private void Take(ReadOnlySpan<byte> line)
        {
            (Session.Events.FeedReading? reading, ParseError? error) = grammar.Read(line, feed);
            if (reading is not null)
            {
                publisher.Measured(reading);
            }
            else if (error is not null)
            {
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"column {error.Column}: {error.Message}"));
            }
        }
    }
}
