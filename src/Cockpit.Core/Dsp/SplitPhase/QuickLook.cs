using System.Collections.Immutable;

namespace Cockpit.Core.Dsp.SplitPhase;

/// <summary>One channel of the Earth view, growing line by line; a lost line is dark. A look at what the hand does to the picture.</summary>
public sealed class QuickLook : IFrameSink
{
    /// <summary>Most lines that are kept: twenty minutes; then the oldest half goes.</summary>
    public const int MostLines = 7200;

    private readonly int _channel;
    private readonly List<ushort[]> _lines = [];
    private readonly List<bool> _received = [];

    /// <summary>Starts an empty picture.</summary>
    /// <param name="channel">0 to 4.</param>
    public QuickLook(int channel)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(channel);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(channel, MinorFrame.Channels);
        _channel = channel;
    }

    /// <summary>Lines so far, lost ones among them.</summary>
    public int Lines => _lines.Count;

    /// <summary>Which of them were received.</summary>
    public ImmutableArray<bool> Received => [.. _received];

    /// <summary>One line, 2048 samples from 0 to 1023.</summary>
    public ReadOnlySpan<ushort> this[int line] => _lines[line];

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        if (_lines.Count == MostLines)
        {
            _lines.RemoveRange(0, MostLines / 2);
            _received.RemoveRange(0, MostLines / 2);
        }

        _lines.Add(new ushort[MinorFrame.EarthSamples]);
        _received.Add(frame.Received);
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits)
    {
        // Other kinds of frames have no picture that is known here.
        if (_lines.Count > 0 && bits.Length == (MinorFrame.Bits + 7) / 8)
        {
            MinorFrame.ReadChannel(bits, _channel, _lines[^1]);
        }
    }
}
