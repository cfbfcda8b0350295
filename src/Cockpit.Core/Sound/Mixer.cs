namespace Cockpit.Core.Sound;

/// <summary>Renders cues, spoken words and the peak tone into blocks; one cue at a time, the more urgent cuts in. No allocation after construction.</summary>
/// <remarks>Not safe for several threads: whoever renders also starts. Time is counted in rendered frames; there is no clock.</remarks>
public sealed class Mixer : ISoundSource
{
    private const int Places = 32;
    private static readonly int BeforeWords = SoundFormat.Frames(80.0);
    // Between the tone of the search and what breaks in on it: without a gap the one is heard as a part of the other.
    private static readonly int AfterPeak = SoundFormat.Frames(110.0);
    private static readonly int AfterAlarm = SoundFormat.Frames(300.0);
    private static readonly float VolumeShare = (float)(1.0 - Math.Exp(-1.0 / SoundFormat.Frames(20.0)));
    private readonly ToneVoice[] _voices = new ToneVoice[Places];
    private readonly PeakVoice _peak = new();
    private readonly Limiter _limiter = new();
    private ClipVoice _clip;
    private ClipVoice _fading;
    private float _volume = 1.0f;
    private float _wantedVolume = 1.0f;
    private int _priority = int.MaxValue;
    private long _busyUntil;
    private long _peakMutedUntil;

    /// <summary>Frames rendered so far.</summary>
    public long Frame { get; private set; }

    /// <summary>Starts a cue with the next frame.</summary>
    /// <param name="priority">1 warning, 2 caution, 3 guidance, 4 advisory.</param>
    /// <param name="tones">Its tones, at most 32.</param>
    /// <param name="spoken">A clip that follows the tones, 48 kHz, one channel; empty for none.</param>
    /// <returns>False when a more urgent cue is sounding: then it is dropped, not queued.</returns>
    public bool Start(int priority, ReadOnlySpan<Tone> tones, ReadOnlyMemory<float> spoken = default)
    {
        if (Frame < _busyUntil && priority > _priority) { return false; }

        foreach (ref ToneVoice voice in _voices.AsSpan())
        {
            if (voice.IsActive) { voice.Cut(Frame); }
        }

        _fading = _clip;
        _fading.Cut(Frame);
        _busyUntil = Frame;
        _priority = priority;
        long start = Frame + (_peak.IsOpen ? AfterPeak : 0);
        foreach (ref readonly Tone tone in tones) { Add(tone, start); }

        _clip = ClipVoice.Of(spoken, _busyUntil + (tones.IsEmpty ? 0 : BeforeWords));
        _busyUntil = spoken.IsEmpty ? _busyUntil : _clip.End;

        _peakMutedUntil = Math.Max(_peakMutedUntil, _busyUntil + (priority <= 2 ? AfterAlarm : 0));
        return true;
    }

    /// <summary>What the peak tone does from the next frame on.</summary>
    /// <param name="frequencyHz">Its pitch; null ends it.</param>
    /// <param name="pulsesPerSecond">Pulses of half their period; 0 = unbroken.</param>
    public void SetPeak(double? frequencyHz, double pulsesPerSecond) => _peak.Set(frequencyHz, pulsesPerSecond);

    /// <summary>Sets the volume, dB re the default, kept within <see cref="Level.SoftestDb"/> and <see cref="Level.LoudestDb"/>.</summary>
    public void SetVolume(double decibels) => _wantedVolume = (float)Level.Amplitude(Level.ClampVolume(decibels));

    /// <inheritdoc/>
    public void Render(Span<float> interleaved)
    {
        interleaved.Clear();
        _peak.AddTo(interleaved, _peakMutedUntil - Frame);
        foreach (ref ToneVoice voice in _voices.AsSpan())
        {
            if (voice.IsActive) { voice.AddTo(interleaved, Frame); }
        }

        _fading.AddTo(interleaved, Frame);
        _clip.AddTo(interleaved, Frame);
        Scale(interleaved);
        _limiter.Apply(interleaved);
        Frame += interleaved.Length / SoundFormat.Channels;
    }

    private void Add(in Tone tone, long start)
    {
        int free = Array.FindIndex(_voices, voice => !voice.IsActive);

        // No place is left only when cues cut each other many times within 10 ms; then what fades gives way.
        int place = free >= 0 ? free : Array.FindIndex(_voices, voice => voice.IsCut);
        if (place < 0) { return; }

        _voices[place] = ToneVoice.Of(tone, start);
        _busyUntil = Math.Max(_busyUntil, _voices[place].End);
    }

    private void Scale(Span<float> interleaved)
    {
        for (int i = 0; i + 1 < interleaved.Length; i += 2)
        {
            _volume += VolumeShare * (_wantedVolume - _volume);
            interleaved[i] *= _volume;
            interleaved[i + 1] *= _volume;
        }
    }
}
