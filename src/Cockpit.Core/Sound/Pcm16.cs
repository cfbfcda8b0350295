namespace Cockpit.Core.Sound;

/// <summary>16-bit samples.</summary>
public static class Pcm16
{
    /// <summary>Converts samples of full scale ±1 to ±32767; what lies outside is clipped, NaN is silence.</summary>
    /// <param name="samples">N samples.</param>
    /// <param name="pcm">N places.</param>
    public static void Convert(ReadOnlySpan<float> samples, Span<short> pcm)
    {
        for (int i = 0; i < samples.Length; i++)
        {
            float sample = float.IsNaN(samples[i]) ? 0.0f : Math.Clamp(samples[i], -1.0f, 1.0f);
            pcm[i] = (short)MathF.Round(sample * short.MaxValue);
        }
    }
}
