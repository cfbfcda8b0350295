using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>One number for the order of passes: mostly how many clean minutes there are.</summary>
/// <remarks>The weights are our judgement of what an operator wants (no source): minutes 50, strength 20, light 20, ease 10; then what spoils it.</remarks>
internal static class PassScoring
{
    private const double FullMinutes = 11.0;
    private const double FullMarginDb = 8.0;
    private const double ManyNudges = 40.0;
    private const double SunPenalty = 10.0;
    private const double StalePenalty = 15.0;

    /// <summary>The score of a verdict whose other values stand.</summary>
    /// <returns>0 to 100.</returns>
    public static double Of(
        TimeSpan receivable, Decibels marginAtCulmination, PictureLight light, int nudges, Angle? sunSeparation, Angle beamWidth, Angle staleness)
    {
        double minutes = 50.0 * Math.Min(1.0, receivable.TotalMinutes / FullMinutes);
        double strength = 20.0 * Math.Clamp(marginAtCulmination.Value / FullMarginDb, 0.0, 1.0);
        double view = light switch { PictureLight.Daylight => 20.0, PictureLight.Mixed => 14.0, _ => 6.0 };
        double ease = 10.0 * Math.Max(0.0, 1.0 - (nudges / ManyNudges));

        // The sun adds noise where the beam sees it, fading out at one beamwidth.
        double sun = sunSeparation is { } apart ? SunPenalty * Math.Max(0.0, 1.0 - (apart / beamWidth)) : 0.0;

        // Half a beamwidth of error costs a search at the start of the pass.
        double stale = StalePenalty * Math.Min(1.0, staleness / (0.5 * beamWidth));
        return Math.Clamp(minutes + strength + view + ease - sun - stale, 0.0, 100.0);
    }
}
