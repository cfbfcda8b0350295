namespace Cockpit.Core.Sound;

/// <summary>Keeps every sample under the ceiling; both ears share one gain, so that the side stays where it was.</summary>
/// <remarks>The gain falls at once to where the sample meets the ceiling, which leaves no step, and comes back in 0.1 s.</remarks>
public sealed class Limiter
{
    private static readonly float Ceiling = (float)Level.Amplitude(Level.CeilingDbfs);
    private static readonly float Recovery = (float)(1.0 - Math.Exp(-1.0 / SoundFormat.Frames(100.0)));
    private float _gain = 1.0f;

    /// <summary>Limits a block in place; NaN becomes silence.</summary>
    public void Apply(Span<float> interleaved)
    {
        for (int i = 0; i + 1 < interleaved.Length; i += 2)
        {
            float peak = Math.Max(Math.Abs(interleaved[i]), Math.Abs(interleaved[i + 1]));
            _gain += Recovery * (1.0f - _gain);
            if (!(peak * _gain <= Ceiling)) { _gain = float.IsFinite(peak) ? Ceiling / peak : 0.0f; }

            interleaved[i] = float.IsFinite(peak) ? interleaved[i] * _gain : 0.0f;
            interleaved[i + 1] = float.IsFinite(peak) ? interleaved[i + 1] * _gain : 0.0f;
        }
    }
}
