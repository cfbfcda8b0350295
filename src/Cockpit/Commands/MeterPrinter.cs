using Cockpit.Core.Dsp;

namespace Cockpit.Commands;

/// <summary>Prints every window of the meter as a row.</summary>
/// <param name="rows">Where to.</param>
/// <param name="start">Time of the first sample.</param>
/// <param name="sampleRate">Samples a second.</param>
internal sealed class MeterPrinter(OutputRows rows, DateTimeOffset start, double sampleRate) : IMeterSink
{
    private readonly List<double> _starts = [];

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        if (frame.Received)
        {
            _starts.Add(frame.StartSample);
        }
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits)
    {
        // Only the picture wants them.
    }

    /// <inheritdoc/>
    public void Window(in MeterReading reading)
    {
        DateTimeOffset utc = start + TimeSpan.FromTicks((long)Math.Round(reading.FirstSample * (TimeSpan.TicksPerSecond / sampleRate)));
        rows.Add(MeterRows.CellsOf(utc, reading, _starts));
        _starts.Clear();
    }
}
