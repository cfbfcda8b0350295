using Cockpit.Core.Formats.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>The level of the signal as another program tells it: <see cref="SignalLine"/> to <see cref="SignalMeasured"/>; one for each feed.</summary>
/// <param name="columns">The columns that a person told; null where the lines say it themselves.</param>
/// <param name="tellsSteadiness">Whether to tell of a level that does not change at all, for receivers that answer also where they measure nothing.</param>
public sealed class SignalGrammar(SignalColumns? columns = null, bool tellsSteadiness = false) : ILineGrammar
{
    private const int SteadyReadings = 50;

    private double? _steering;
    private int _same;

    private readonly TrustedLines _lines = new(columns);

    /// <summary>What the values of the last line are called on it.</summary>
    public SignalNames Names => _lines.Names;

    /// <inheritdoc/>
    public int LongestLine => SignalLine.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        SignalLine read = _lines.Read(line, feed);
        return new(read.Sample is { } sample ? new SignalMeasured(feed, sample) : null, read.Error, Steadiness(read) ?? _lines.Told, RemoteKeys.Of(read.Pressed));
    }

    /// <inheritdoc/>
    public string? Suspicion(ReadOnlySpan<byte> bytes) => TrustedLines.Suspicion(bytes);

    private string? Steadiness(SignalLine read)
    {
        if (!tellsSteadiness || read.Sample?.SteeringDb is not { } steering)
        {
            return null;
        }

        _same = steering.Equals(_steering) ? Math.Min(_same + 1, SteadyReadings + 1) : 1;
        _steering = steering;
        return _same == SteadyReadings ? FormattableString.Invariant($"does not change: {SteadyReadings} readings of {steering:0.#} dB; see that the receiver measures") : null;
    }
}
