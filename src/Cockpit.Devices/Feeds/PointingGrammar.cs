using Cockpit.Core.Formats.Sensors;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>Where the dish points as a sensor on it says: lines to <see cref="PointingMeasured"/>; one for each feed.</summary>
/// <param name="options">What a person said of the sensor.</param>
public sealed class PointingGrammar(SensorOptions options) : ILineGrammar
{
    private readonly SensorReader _reader = new(options);

    /// <inheritdoc/>
    public int LongestLine => SensorReader.LongestLine;

    /// <inheritdoc/>
    public LineReading Read(ReadOnlySpan<byte> line, string feed)
    {
        SensorLineReading read = _reader.Read(line, feed);
        return new LineReading(read.Sample is { } sample ? new PointingMeasured(feed, sample) : null, read.Error);
    }
}
