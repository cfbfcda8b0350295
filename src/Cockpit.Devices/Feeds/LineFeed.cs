using System.Globalization;
using Cockpit.Devices.Ports;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>Readings that another program sends line by line, in any grammar, through any port.</summary>
/// <param name="port">Not yet open; the feed owns it.</param>
/// <param name="name">Name of the feed.</param>
/// <param name="grammar">How a line is read.</param>
public sealed class LineFeed(IPort port, string name, ILineGrammar grammar) : PortFeed(port, name)
{
    /// <inheritdoc/>
    protected override IPortListener Listen(FeedPublisher publisher) => new LineListener(grammar, Name, new Publishing(publisher, Name));

    private sealed class Publishing(FeedPublisher publisher, string feed) : ILineTaker
    {
        public void Connected(string where) => publisher.Connected(where);

        public void Lost(string reason) => publisher.Lost(reason);

        public void Dropped(string reason) => publisher.Rejected(reason);

        public void Came(ReadOnlySpan<byte> line, in LineReading reading)
        {
            if (reading.Told is { } how)
            {
                publisher.Say(new FeedNoted(feed, how));
            }

            if (reading.Reading is { } good)
            {
                publisher.Measured(good);
            }
            else if (reading.Error is { } error)
            {
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"column {error.Column}: {error.Message}"));
            }

            if (reading.Pressed is { } key)
            {
                publisher.Say(new OperatorPressed(key));
            }
        }
    }
}
