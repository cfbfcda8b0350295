namespace Cockpit.Core.Sound;

/// <summary>How loud things are.</summary>
/// <remarks>
/// Loud sound harms ears; what a level means at the ear depends on the device, which this program cannot know. So the
/// default is modest, the operator makes it louder on purpose and by small steps, and there is an end to it. For
/// listening of long duration WHO and ITU (Recommendation ITU-T H.870) give 80 dBA for 40 hours a week as the limit.
/// </remarks>
public static class Level
{
    /// <summary>Amplitude of the fundamental of the move word at volume 0, dB re full scale, both ears together.</summary>
    public const double WordDbfs = -14.0;

    /// <summary>The loudest volume that can be set, dB re the default.</summary>
    public const double LoudestDb = 6.0;

    /// <summary>The softest volume that can be set, dB re the default.</summary>
    public const double SoftestDb = -30.0;

    /// <summary>No sample goes above this, dB re full scale.</summary>
    public const double CeilingDbfs = -3.0;

    /// <summary>The ratio of amplitudes that belongs to decibels.</summary>
    public static double Amplitude(double decibels) => Math.Pow(10.0, decibels / 20.0);

    /// <summary>A volume within its limits, dB.</summary>
    public static double ClampVolume(double decibels) => double.IsNaN(decibels) ? SoftestDb : Math.Clamp(decibels, SoftestDb, LoudestDb);
}
