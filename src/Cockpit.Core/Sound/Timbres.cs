namespace Cockpit.Core.Sound;

/// <summary>The partials of the two timbres.</summary>
/// <remarks>
/// Plain has three partials, falling, so that pitch stays clear on a small loudspeaker. Rich has four within 15 dB of
/// each other, which IEC 60601-1-8 asks of the pulses of an alarm, so that no single notch of the room hides it.
/// </remarks>
public static class Timbres
{
    private static readonly double[] PlainDb = [0.0, -9.0, -15.0];
    private static readonly double[] RichDb = [0.0, -3.0, -6.0, -9.0];
    private static readonly float[] PlainGains = Gains(PlainDb);
    private static readonly float[] RichGains = Gains(RichDb);

    /// <summary>Levels of partials 1, 2, ... re the fundamental, dB.</summary>
    public static ReadOnlySpan<double> LevelsDb(Timbre timbre) => timbre == Timbre.Rich ? RichDb : PlainDb;

    /// <summary>One sample of the sum of the partials, fundamental of amplitude 1.</summary>
    /// <param name="timbre">Which partials.</param>
    /// <param name="turns">Phase of the fundamental, turns.</param>
    public static float Sample(Timbre timbre, double turns)
    {
        ReadOnlySpan<float> gains = timbre == Timbre.Rich ? RichGains : PlainGains;
        // Partials by the recurrence of Chebyshev: sin((k+1)x) = 2 cos(x) sin(kx) - sin((k-1)x). One sine and cosine, not four.
        (double sin, double cos) = Math.SinCos(Math.Tau * (turns - Math.Floor(turns)));
        double before = 0.0;
        double now = sin;
        double sum = 0.0;
        foreach (float gain in gains)
        {
            sum += gain * now;
            (before, now) = (now, (2.0 * cos * now) - before);
        }

        return (float)sum;
    }

    private static float[] Gains(double[] decibels) => Array.ConvertAll(decibels, db => (float)Level.Amplitude(db));
}
