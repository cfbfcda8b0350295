using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>The way of a pass over the sky, as a person says it.</summary>
public static class TravelWords
{
    /// <summary>From here on a pass goes over one's head, and its side is a detail.</summary>
    private static readonly Angle NearlyOverhead = Angle.FromDegrees(80);

    /// <summary>From here on nobody can tell the side by eye.</summary>
    private static readonly Angle Overhead = Angle.FromDegrees(87);

    /// <summary>Like "from north, over the east, to south-south-east".</summary>
    /// <param name="pass">The pass; a part that is cut off says so.</param>
    public static string Of(Pass pass)
    {
        ArgumentNullException.ThrowIfNull(pass);
        string rise = (pass.CutAtStart ? "already up in the " : "from ") + CompassWords.Sixteen(pass.Aos.Look.Azimuth);
        string set = (pass.CutAtEnd ? "still up in the " : "to ") + CompassWords.Sixteen(pass.Los.Look.Azimuth);
        Angle highest = pass.Tca.Look.Elevation;
        string side = CompassWords.Eight(pass.Tca.Look.Azimuth);
        string over = highest >= Overhead ? "straight overhead"
            : highest >= NearlyOverhead ? $"nearly overhead by the {side}"
            : $"over the {side}";
        return $"{rise}, {over}, {set}";
    }

    /// <summary>How far the azimuth goes round, positive clockwise (left to right for who faces the culmination).</summary>
    /// <param name="pass">The pass; rise to culmination and culmination to set are each taken the short way round.</param>
    public static Angle Round(Pass pass)
    {
        ArgumentNullException.ThrowIfNull(pass);
        return (pass.Tca.Look.Azimuth - pass.Aos.Look.Azimuth).WrappedToHalfTurn()
            + (pass.Los.Look.Azimuth - pass.Tca.Look.Azimuth).WrappedToHalfTurn();
    }

    /// <summary>How high it goes, in one word: low, medium, high, overhead.</summary>
    /// <param name="highest">Elevation at culmination.</param>
    public static string Height(Angle highest) => highest.Degrees switch
    {
        >= 80.0 => "overhead",
        >= 45.0 => "high",
        >= 20.0 => "medium",
        _ => "low",
    };
}
