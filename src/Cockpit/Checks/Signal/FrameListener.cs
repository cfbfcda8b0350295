using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>Lets a frame lock hear a scenario and notes what it tells.</summary>
internal sealed class FrameListener : IFrameSink
{
    // The carrier is told as badly as the spectrum alone tells it at low levels.
    private const double HintErrorHz = 8e3;

    private double _last;

    /// <summary>Starts of the frames that were received.</summary>
    public List<double> Received { get; } = [];

    /// <summary>Starts of those whose bits were handed over.</summary>
    public List<double> Decoded { get; } = [];

    /// <summary>Share of windows that ended locked.</summary>
    public double Locked { get; private set; }

    /// <summary>What is true of the samples.</summary>
    public IqTruth Truth { get; private set; } = new([], []);

    /// <summary>Plays a scenario.</summary>
    /// <param name="scenario">The samples.</param>
    /// <param name="frames">The lock.</param>
    /// <param name="afterSeconds">Windows that start earlier do not count for <see cref="Locked"/>.</param>
    /// <param name="hintOf">What the lock is told of a window and its nominal symbol rate; null = the truth, and its carrier wrong.</param>
    public static FrameListener Hear(IqScenario scenario, IFrameLock frames, double afterSeconds, Func<TrueWindow, double, LockHint>? hintOf = null)
    {
        FrameListener heard = new();
        IqGenerator generator = new(scenario);
        float[] i = new float[(int)(scenario.SampleRate / SignalMeter.WindowsPerSecond)];
        float[] q = new float[i.Length];
        int windows = 0, locked = 0;
        for (long at = 0; generator.Next(i, q) == i.Length; at += i.Length)
        {
            TrueWindow window = generator.Truth.Windows[^1];
            LockHint hint = hintOf?.Invoke(window, generator.SymbolRate) ?? new LockHint(scenario.Kind, window.OffsetHz + HintErrorHz, generator.SymbolRate, null);
            frames.Take(new ComplexBlock(at, i, q), hint, heard);
            bool counts = at >= afterSeconds * scenario.SampleRate;
            windows += counts ? 1 : 0;
            locked += counts && frames.Locked ? 1 : 0;
        }

        heard.Truth = generator.Truth;
        heard.Locked = (double)locked / Math.Max(windows, 1);
        return heard;
    }

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        _last = frame.StartSample;
        if (frame.Received)
        {
            Received.Add(frame.StartSample);
        }
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits) => Decoded.Add(_last);
}
