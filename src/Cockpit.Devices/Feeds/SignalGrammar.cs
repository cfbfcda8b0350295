using Cockpit.Core.Formats.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>The level of the signal as another program tells it: <see cref="SignalLine"/> to <see cref="SignalMeasured"/>; one for each feed.</summary>
/// <param name="columns">The columns that a person told; null where the lines say it themselves.</param>
public sealed class SignalGrammar(SignalColumns? columns = null) : ILineGrammar
{
    private readonly TrustedLines _lines = new(columns);

    /// <summary>What the values of the last line are called on it.</summary>
    public SignalNames Names => _lines.Names;

    /// <inheritdoc/>
    public int LongestLine => SignalLine.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        SignalLine read = _lines.Read(line, feed);
        return new(read.Sample is { } sample ? new SignalMeasured(feed, sample) : null, read.Error, _lines.Told);
    }

    /// <inheritdoc/>
    public string? Suspicion(ReadOnlySpan<byte> bytes) => TrustedLines.Suspicion(bytes);
}
