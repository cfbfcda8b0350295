using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.SplitPhase;

namespace Cockpit.Commands;

/// <summary>Prints every window of the meter as a row.</summary>
/// <param name="rows">Where to.</param>
/// <param name="start">Time of the first sample.</param>
/// <param name="sampleRate">Samples a second.</param>
/// <param name="look">The picture that grows with it; null where none is wanted.</param>
internal sealed class MeterPrinter(OutputRows rows, DateTimeOffset start, double sampleRate, QuickLook? look) : IMeterSink
{
    private readonly List<double> _starts = [];

    /// <summary>Samples that were measured, and those that were missing among them.</summary>
    public long Samples { get; private set; }

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        look?.Frame(frame);
        if (frame.Received)
        {
            _starts.Add(frame.StartSample);
        }
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits) => look?.Bits(bits);

    /// <inheritdoc/>
    public void Window(in MeterReading reading)
    {
        DateTimeOffset utc = start + TimeSpan.FromTicks((long)Math.Round(reading.FirstSample * (TimeSpan.TicksPerSecond / sampleRate)));
        rows.Add(MeterRows.CellsOf(utc, reading, _starts));
        _starts.Clear();
        Samples = reading.FirstSample + reading.Samples;
    }
}
