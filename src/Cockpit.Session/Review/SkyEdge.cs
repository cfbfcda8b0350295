using System.Collections.Immutable;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Review;

/// <summary>Where the signal came or went, as the level tells it, against the skyline that was planned with.</summary>
/// <param name="Came">It came; else it went.</param>
/// <param name="Utc">When, UTC.</param>
/// <param name="Azimuth">Of the satellite then, true.</param>
/// <param name="Elevation">Of the satellite then.</param>
/// <param name="Mask">Elevation of the planned skyline at that azimuth.</param>
public readonly record struct SkyEdge(bool Came, DateTimeOffset Utc, Angle Azimuth, Angle Elevation, Angle Mask)
{
    private const double OverFloorDb = 3.0;
    private const int Blocks = 4; // two seconds
    private const double AimedWidths = 0.6;

    /// <summary>Finds both ends; one where the dish was elsewhere by its belief, or that the session does not hold, is left out.</summary>
    /// <param name="log">The session.</param>
    /// <param name="course">The level's course.</param>
    internal static ImmutableArray<SkyEdge> Of(ReviewLog log, LevelCourse course)
    {
        ReviewBlock[] heard = [.. log.Blocks.Where(b => b is { LevelDb: not null, Look: not null })];
        int first = -1;
        int last = -1;
        int run = 0;
        for (int i = 0; i < heard.Length; i++)
        {
            bool over = heard[i].LevelDb > course.FloorDb + OverFloorDb && heard[i].Look.GetValueOrDefault().Elevation > Angle.Zero;
            run = over ? run + 1 : 0;
            if (run >= Blocks)
            {
                first = first < 0 ? i - Blocks + 1 : first;
                last = i;
            }
        }

        // An end at the end of the session says when it was closed, nothing about the sky.
        SkyEdge?[] edges =
        [
            first >= Blocks ? At(log, heard[first], came: true) : null,
            last >= 0 && last + Blocks < heard.Length ? At(log, heard[last], came: false) : null,
        ];
        return [.. edges.OfType<SkyEdge>()];
    }

    private static SkyEdge? At(ReviewLog log, ReviewBlock block, bool came)
    {
        LookAngles look = block.Look.GetValueOrDefault();
        bool aimed = block.Dish is not { } dish
            || Core.Aim.AimErrors.Separation(dish.Azimuth, dish.Elevation, look.Azimuth, look.Elevation) < log.BeamWidth * AimedWidths;
        Angle planned = log.Settings.Horizon()?.At(look.Azimuth) ?? log.Settings.MinimumElevation;
        return aimed ? new SkyEdge(came, block.Utc, look.Azimuth, look.Elevation, planned > log.Settings.MinimumElevation ? planned : log.Settings.MinimumElevation) : null;
    }
}
