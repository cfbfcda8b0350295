using Cockpit.Core.Dsp;

namespace Cockpit.Checks.Signal;

/// <summary>Keeps all that a meter says.</summary>
internal sealed class RecordingSink : IMeterSink
{
    /// <summary>The windows.</summary>
    public List<MeterReading> Windows { get; } = [];

    /// <summary>The frames.</summary>
    public List<FrameEvent> Frames { get; } = [];

    /// <inheritdoc/>
    public void Window(in MeterReading reading) => Windows.Add(reading);

    /// <inheritdoc/>
    public void Frame(FrameEvent frame) => Frames.Add(frame);

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits)
    {
        // Checks of bits have their own sink.
    }
}
