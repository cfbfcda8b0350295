namespace Cockpit.Core.Sound;

/// <summary>Raised-cosine edges, so that nothing begins or ends with a click.</summary>
public static class Ramp
{
    /// <summary>Rise of a tone, ms.</summary>
    public const double AttackMs = 10.0;

    /// <summary>Fall of a tone, ms.</summary>
    public const double ReleaseMs = 20.0;

    /// <summary>The raised cosine: 0 at 0, 1 at 1, flat at both ends; outside it stays there.</summary>
    public static float Rise(double part) => part <= 0.0 ? 0.0f : part >= 1.0 ? 1.0f : (float)(0.5 - (0.5 * Math.Cos(Math.PI * part)));

    /// <summary>Gain of a tone at a frame; a tone shorter than its edges keeps their proportion.</summary>
    /// <param name="frame">Frame of the tone, from 0.</param>
    /// <param name="length">Its length, frames.</param>
    public static float Gain(long frame, int length)
    {
        double squeeze = Math.Min(1.0, length / (double)SoundFormat.Frames(AttackMs + ReleaseMs));
        double attack = squeeze * SoundFormat.Frames(AttackMs);
        double release = squeeze * SoundFormat.Frames(ReleaseMs);
        return Math.Min(Rise(frame / attack), Rise((length - frame) / release));
    }
}
