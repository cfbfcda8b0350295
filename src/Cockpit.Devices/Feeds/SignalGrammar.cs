using Cockpit.Core.Formats.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>The level of the signal as another program tells it: <see cref="SignalLine"/> to <see cref="SignalMeasured"/>.</summary>
public sealed class SignalGrammar : ILineGrammar
{
    /// <inheritdoc/>
    public int LongestLine => SignalLine.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        SignalLine read = SignalLine.Read(line, feed);
        return new(read.Sample is { } sample ? new SignalMeasured(feed, sample) : null, read.Error);
    }
}
