using System.Collections.Immutable;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Core.Dsp.Frames;

/// <summary>Lets the locks decode as long as the computer keeps up with the samples, and else go by the markers alone.</summary>
/// <param name="locks">The locks.</param>
/// <param name="sampleRate">Samples a second.</param>
public sealed class DecodingLoad(ImmutableArray<IFrameLock> locks, double sampleRate)
{
    private readonly ImmutableArray<QpskFrameLock> _decoders = [.. locks.OfType<QpskFrameLock>()];
    private readonly DecodingSwitch _switch = new();
    private readonly double _window = sampleRate / SignalMeter.WindowsPerSecond;
    private double _samples;
    private TimeSpan _spent;

    /// <summary>Whether frames are received that nobody decodes.</summary>
    public bool IsShort => !_switch.On && _decoders.Any(decoder => decoder.Locked);

    /// <summary>Samples were measured.</summary>
    /// <param name="spent">How long it took.</param>
    /// <param name="samples">How many.</param>
    public void Worked(TimeSpan spent, long samples)
    {
        _samples += samples;
        _spent += spent;
        if (_samples < _window)
        {
            return;
        }

        bool on = _switch.Next(_spent.TotalSeconds * sampleRate / _samples);
        (_samples, _spent) = (0, TimeSpan.Zero);
        foreach (QpskFrameLock decoder in _decoders)
        {
            if (decoder.Decoding != on)
            {
                decoder.Decoding = on;
            }
        }
    }
}
