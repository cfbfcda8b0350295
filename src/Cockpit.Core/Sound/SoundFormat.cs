namespace Cockpit.Core.Sound;

/// <summary>The one format that everything renders: 48 kHz, two channels interleaved left, right, full scale ±1.</summary>
public static class SoundFormat
{
    /// <summary>Frames a second.</summary>
    public const int Rate = 48000;

    /// <summary>Channels.</summary>
    public const int Channels = 2;

    /// <summary>Frames in a number of milliseconds, rounded.</summary>
    public static int Frames(double milliseconds) => (int)Math.Round(milliseconds * (Rate / 1000.0));
}

/// <summary>Where blocks of sound come from; called by one thread at a time.</summary>
public interface ISoundSource
{
    /// <summary>Fills the whole block; silence is zeros.</summary>
    /// <param name="interleaved">2·frames samples: left, right, left, ..., full scale ±1.</param>
    void Render(Span<float> interleaved);
}
