namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>A made-up view of the Earth: smooth, different in each channel, the same for everybody who asks.</summary>
public static class MadeUpView
{
    /// <summary>One sample.</summary>
    /// <param name="channel">0 to 4.</param>
    /// <param name="line">Number of the line.</param>
    /// <param name="column">0 to 2047.</param>
    /// <returns>0 to 1023.</returns>
    public static int At(int channel, long line, int column)
    {
        double x = column / 2048.0, y = line / 360.0;
        double coast = Math.Sin((7.1 * x) + (0.9 * channel) + (3 * Math.Sin(2.3 * y))) * Math.Cos((5.3 * y) - (2 * x));
        double cloud = Math.Max(0, Math.Sin((23 * x) + (11 * y)) * Math.Sin((17 * y) - (4 * x)));
        double limb = Math.Sqrt(Math.Max(0, 1 - Math.Pow((2 * x) - 1, 2)));
        double value = 1023 * Math.Clamp((0.12 + (0.06 * channel)) + (0.35 * limb) + (0.18 * coast) + (0.25 * cloud), 0, 1);
        return Math.Clamp((int)Math.Round(value), 0, 1023);
    }
}
