namespace Cockpit.Core.Estimate;

/// <summary>The level of one block under one hypothesis: its likelihood, and what it teaches about gain, steepness and fading.</summary>
/// <remarks>
/// mu = margin law - beam loss + G + x S + f - obstruction; what is read is the larger of mu and the receiver's floor. The mean of
/// max(mu, floor) for a Gaussian mu gives the prediction and its slope. Student's t keeps single odd blocks from ruling. The
/// variance added to that of the level is the same for every hypothesis: a term that grows with the error would pull the
/// whole cloud to the satellite.
/// </remarks>
internal static class LevelFilter
{
    /// <summary>Lets time pass.</summary>
    public static void Wait(ref Particle p, double seconds, double fadingDb, double gainWalk)
    {
        double keep = Math.Exp(-seconds / LevelModel.FadingSeconds);
        p.F *= keep;
        p.FF = (keep * keep * p.FF) + ((1.0 - (keep * keep)) * fadingDb * fadingDb);
        p.GF *= keep;
        p.SF *= keep;
        p.GG += gainWalk * seconds;
    }

    /// <summary>What is expected of the level before the receiver's floor, dB.</summary>
    public static double Mean(in Particle p, in SkyPoint sky, double squareOff) =>
        sky.MarginDb - Math.Min(p.BeamSquare * squareOff, LevelModel.SideLobesDb) + p.G + (sky.Steepness * p.S) + p.F - p.Blocked;

    /// <summary>Takes in a block.</summary>
    /// <returns>Its likelihood, but for a constant factor.</returns>
    public static double Take(ref Particle p, in SkyPoint sky, double level, double floor, double noise)
    {
        double x = sky.Steepness;
        double mu = Mean(p, sky, p.Direction.SquareTo(sky.Direction));
        double hG = p.GG + (x * p.GS) + p.GF;
        double hS = p.GS + (x * p.SS) + p.SF;
        double hF = p.GF + (x * p.SF) + p.FF;
        double variance = hG + (x * hS) + hF;
        double sd = Math.Sqrt(Math.Max(variance, 1e-6));
        double z = (mu - floor) / sd;
        double slope = Normal.Below(z);
        double predicted = floor + ((mu - floor) * slope) + (sd * Normal.Density(z));
        double total = (slope * slope * variance) + noise;
        double off = level - predicted;
        double q = off * off / total;

        double inflated = (slope * slope * variance) + (noise * Math.Max(1.0, (LevelModel.Freedom + q) / (LevelModel.Freedom + 1.0)));
        double gain = slope / inflated;
        double move = gain * off;
        p.G += hG * move;
        p.S += hS * move;
        p.F += hF * move;
        double less = slope * gain;
        p.GG -= less * hG * hG;
        p.GS -= less * hG * hS;
        p.GF -= less * hG * hF;
        p.SS -= less * hS * hS;
        p.SF -= less * hS * hF;
        p.FF -= less * hF * hF;

        // Student's t with five degrees of freedom: the power is -(5 + 1) / 2.
        double tail = 1.0 + (q / LevelModel.Freedom);
        return 1.0 / (tail * tail * tail * Math.Sqrt(total));
    }
}
