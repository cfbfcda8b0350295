namespace Cockpit.Core.Sound;

/// <summary>One tone on its way through the mixer.</summary>
internal struct ToneVoice
{
    private static readonly int CutFrames = SoundFormat.Frames(10.0);
    private long _start;
    private int _length;
    private double _turnsPerFrame;
    private float _left;
    private float _right;
    private Timbre _timbre;
    private long _cutAt;

    /// <summary>Still sounds, or will.</summary>
    public bool IsActive { get; private set; }

    /// <summary>It is fading out.</summary>
    public readonly bool IsCut => _cutAt != long.MaxValue;

    /// <summary>First frame after its end.</summary>
    public readonly long End => _start + _length;

    public static ToneVoice Of(in Tone tone, long now)
    {
        Pan pan = Pan.FromLevelDifference(tone.Pan);
        float amplitude = (float)Level.Amplitude(Level.WordDbfs + tone.LevelDb);
        return new ToneVoice
        {
            _start = now + SoundFormat.Frames(tone.StartMs),
            _length = SoundFormat.Frames(tone.LengthMs),
            _turnsPerFrame = tone.FrequencyHz / SoundFormat.Rate,
            _left = amplitude * pan.Left,
            _right = amplitude * pan.Right,
            _timbre = tone.Timbre,
            _cutAt = long.MaxValue,
            IsActive = true,
        };
    }

    /// <summary>Fades it out from a frame on.</summary>
    public void Cut(long now)
    {
        if (now <= _start) { IsActive = false; }
        else { _cutAt = Math.Min(_cutAt, now); }
    }

    /// <summary>Adds its part to a block that begins at <paramref name="now"/>.</summary>
    public void AddTo(Span<float> interleaved, long now)
    {
        long end = Math.Min(End, _cutAt == long.MaxValue ? long.MaxValue : _cutAt + CutFrames);
        int frames = interleaved.Length / SoundFormat.Channels;
        int from = (int)Math.Clamp(_start - now, 0, frames);
        int to = (int)Math.Clamp(end - now, 0, frames);
        for (int i = from; i < to; i++)
        {
            long frame = now + i - _start;
            float gain = Ramp.Gain(frame, _length) * (1.0f - Ramp.Rise((now + i - _cutAt) / (double)CutFrames));
            float sample = gain * Timbres.Sample(_timbre, frame * _turnsPerFrame);
            interleaved[2 * i] += _left * sample;
            interleaved[(2 * i) + 1] += _right * sample;
        }

        IsActive = end > now + frames;
    }
}
