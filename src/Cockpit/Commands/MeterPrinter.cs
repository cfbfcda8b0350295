using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.SplitPhase;

namespace Cockpit.Commands;

/// <summary>Prints every window of the meter as a row.</summary>
/// <param name="rows">Where to.</param>
/// <param name="start">Time of the first sample.</param>
/// <param name="sampleRate">Samples a second.</param>
/// <param name="look">The picture that grows with it; null where none is wanted.</param>
/// <param name="holdLast">A row waits until the next comes or nothing more comes; else it is printed at once.</param>
internal sealed class MeterPrinter(OutputRows rows, DateTimeOffset start, double sampleRate, QuickLook? look, bool holdLast) : IMeterOutput
{
    private readonly List<double> _starts = [];
    private readonly List<double> _pendingStarts = [];
    private MeterReading? _pending;

    /// <inheritdoc/>
    public long Samples { get; private set; }

    /// <inheritdoc/>
    public void Begin() => rows.Begin();

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
        Print();
        _pending = reading;
        _pendingStarts.AddRange(_starts);
        _starts.Clear();
        if (!holdLast)
        {
            Print();
        }

        Samples = reading.FirstSample + reading.Samples;
    }

    /// <summary>Nothing more comes: the last row counts also the frames that were told after it.</summary>
    /// <param name="meter">The meter, finished.</param>
    public void Finish(SignalMeter meter)
    {
        _pending = _pending is { } last ? last with { LinesReceived = meter.LinesReceived, LinesLost = meter.LinesLost } : null;
        _pendingStarts.AddRange(_starts);
        Print();
        rows.End();
    }

    private void Print()
    {
        if (_pending is { } reading)
        {
            DateTimeOffset utc = start + TimeSpan.FromTicks((long)Math.Round(reading.FirstSample * (TimeSpan.TicksPerSecond / sampleRate)));
            rows.Add(MeterRows.CellsOf(utc, reading, _pendingStarts));
        }

        _pending = null;
        _pendingStarts.Clear();
    }
}
