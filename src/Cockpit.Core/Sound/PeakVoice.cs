namespace Cockpit.Core.Sound;

/// <summary>The tone of the peak search: its pitch glides and its pulses open and close without a click.</summary>
internal sealed class PeakVoice
{
    private const double GlideMs = 15.0;
    private const double EdgeMs = 10.0;
    private static readonly double GlideShare = 1.0 - Math.Exp(-1.0 / SoundFormat.Frames(GlideMs));
    private static readonly double EdgeStep = 1.0 / SoundFormat.Frames(EdgeMs);
    private static readonly float Amplitude = (float)(Level.Amplitude(Level.WordDbfs - 3.0) * Math.Sqrt(0.5));
    private double? _wantedHz;
    private double _pulsesPerFrame;
    private double _hz;
    private double _turns;
    private double _pulseTurns;
    private double _open;

    /// <summary>It sounds now.</summary>
    public bool IsOpen => _open > 0.0;

    /// <summary>What it should do from now on; null ends it.</summary>
    public void Set(double? frequencyHz, double pulsesPerSecond)
    {
        if (frequencyHz is { } hz && _open <= 0.0)
        {
            _hz = hz;
            if (_wantedHz is null) { _pulseTurns = 0.0; }
        }

        _wantedHz = frequencyHz;
        _pulsesPerFrame = pulsesPerSecond / SoundFormat.Rate;
    }

    /// <summary>Adds its part to a block.</summary>
    /// <param name="interleaved">The block.</param>
    /// <param name="mutedFrames">So many frames from the start of the block are taken by something else.</param>
    public void AddTo(Span<float> interleaved, long mutedFrames)
    {
        if (_wantedHz is null && _open <= 0.0) { return; }

        for (int i = 0; i < interleaved.Length / SoundFormat.Channels; i++)
        {
            bool pulse = _pulsesPerFrame <= 0.0 || _pulseTurns < 0.5;
            bool sounds = pulse && _wantedHz is not null && i >= mutedFrames;
            _open = Math.Clamp(_open + (sounds ? EdgeStep : -EdgeStep), 0.0, 1.0);
            _hz += GlideShare * ((_wantedHz ?? _hz) - _hz);
            _turns = (_turns + (_hz / SoundFormat.Rate)) % 1.0;
            _pulseTurns = (_pulseTurns + _pulsesPerFrame) % 1.0;
            float sample = Amplitude * Ramp.Rise(_open) * Timbres.Sample(Timbre.Plain, _turns);
            interleaved[2 * i] += sample;
            interleaved[(2 * i) + 1] += sample;
        }
    }
}
