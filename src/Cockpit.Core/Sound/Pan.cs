namespace Cockpit.Core.Sound;

/// <summary>Gains of the two ears.</summary>
/// <param name="Left">Gain of the left ear.</param>
/// <param name="Right">Gain of the right ear.</param>
public readonly record struct Pan(float Left, float Right)
{
    /// <summary>Beyond this one ear alone would miss the tone, dB.</summary>
    public const double LargestDb = 15.0;

    /// <summary>Constant power: left² + right² = 1, right / left = the level difference.</summary>
    /// <param name="levelDifferenceDb">Interaural level difference, dB, positive = louder on the right; kept within ±15.</param>
    public static Pan FromLevelDifference(double levelDifferenceDb)
    {
        double angle = Math.Atan(Level.Amplitude(Math.Clamp(levelDifferenceDb, -LargestDb, LargestDb)));
        return new Pan((float)Math.Cos(angle), (float)Math.Sin(angle));
    }
}
