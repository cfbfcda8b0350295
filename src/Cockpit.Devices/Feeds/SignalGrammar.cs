using Cockpit.Core.Formats.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>The level of the signal as another program tells it: <see cref="SignalLine"/> to <see cref="SignalMeasured"/>; one for each feed.</summary>
public sealed class SignalGrammar : ILineGrammar
{
    private readonly TrustedLines _lines = new();

    /// <summary>What the values of the last line are called on it.</summary>
    public SignalNames Names => _lines.Names;

    /// <inheritdoc/>
    public int LongestLine => SignalLine.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        SignalLine read = _lines.Read(line, feed);
        return new(read.Sample is { } sample ? new SignalMeasured(feed, sample) : null, read.Error);
    }
}
