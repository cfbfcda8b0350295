namespace Cockpit.Core.Sound;

/// <summary>A recorded clip on its way through the mixer, the same in both ears.</summary>
internal struct ClipVoice
{
    private static readonly int CutFrames = SoundFormat.Frames(10.0);
    private ReadOnlyMemory<float> _samples;
    private long _start;
    private long _cutAt;

    /// <summary>First frame after its end.</summary>
    public readonly long End => _start + _samples.Length;

    /// <param name="samples">48 kHz, one channel.</param>
    /// <param name="start">Its first frame.</param>
    public static ClipVoice Of(ReadOnlyMemory<float> samples, long start) => new() { _samples = samples, _start = start, _cutAt = long.MaxValue };

    /// <summary>Fades it out from a frame on.</summary>
    public void Cut(long now) => _cutAt = now <= _start ? _start : Math.Min(_cutAt, now);

    /// <summary>Adds its part to a block that begins at <paramref name="now"/>.</summary>
    public readonly void AddTo(Span<float> interleaved, long now)
    {
        long end = Math.Min(End, _cutAt == long.MaxValue ? long.MaxValue : _cutAt == _start ? _start : _cutAt + CutFrames);
        int frames = interleaved.Length / SoundFormat.Channels;
        int from = (int)Math.Clamp(_start - now, 0, frames);
        int to = (int)Math.Clamp(end - now, 0, frames);
        ReadOnlySpan<float> samples = _samples.Span;
        for (int i = from; i < to; i++)
        {
            float sample = samples[(int)(now + i - _start)] * (1.0f - Ramp.Rise((now + i - _cutAt) / (double)CutFrames));
            interleaved[2 * i] += sample;
            interleaved[(2 * i) + 1] += sample;
        }
    }
}
