namespace Cockpit.Core.Estimate;

/// <summary>What is taken for granted about level and dish; dB, seconds, degrees. Design values.</summary>
internal static class LevelModel
{
    /// <summary>Seconds of one block: the level is averaged over it.</summary>
    public const double Block = 0.5;

    /// <summary>The gain wanders, dB^2 a second.</summary>
    public const double GainWalk = 0.0004;

    /// <summary>How far the gain of the whole link may be off the budget, standard deviation, dB.</summary>
    public const double GainSd = 2.5;

    /// <summary>How far the steepness may be off the middle, standard deviation.</summary>
    public const double SteepnessSd = 1.0;

    /// <summary>Time constant of the fading, s.</summary>
    public const double FadingSeconds = 2.0;

    /// <summary>Reading noise of a block, wind, everything not modelled, dB^2.</summary>
    public const double ReadingVariance = 0.235;

    /// <summary>More of it while the dish moves, dB^2.</summary>
    public const double MovingVariance = 2.0;

    /// <summary>Degrees of freedom of Student's t.</summary>
    public const double Freedom = 5.0;

    /// <summary>Where the main lobe ends, dB.</summary>
    public const double SideLobesDb = 20.0;

    /// <summary>The dish wanders, degrees for each axis in the root of a second.</summary>
    public const double WalkDegrees = 0.06;

    /// <summary>Spread of the logarithm of the beam width about the configured one.</summary>
    public const double BeamSpread = 0.08;

    /// <summary>How far the threshold of the picture may be off its nominal place, standard deviation, dB.</summary>
    public const double ThresholdSd = 1.5;

    /// <summary>Something comes into the way so often, 1/s.</summary>
    public const double BlockedRate = 1.0 / 250.0;

    /// <summary>And goes again, 1/s.</summary>
    public const double ClearedRate = 1.0 / 10.0;

    /// <summary>It takes at least this, dB.</summary>
    public const double BlockedLeastDb = 3.0;

    /// <summary>It takes at most this, dB.</summary>
    public const double BlockedMostDb = 15.0;
}
