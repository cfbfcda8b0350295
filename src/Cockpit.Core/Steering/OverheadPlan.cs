using Cockpit.Core.Aim;

namespace Cockpit.Core.Steering;

/// <summary>One way past the top, at its best moment. Seconds and degrees.</summary>
/// <param name="Way">Which.</param>
/// <param name="StandsFrom">When the pan stops following.</param>
/// <param name="Azimuth">Where the pan then stands, true azimuth.</param>
/// <param name="Elevation">Where the tilt then stands; not used over the top, where it follows.</param>
/// <param name="TurnsAt">When the pan begins to turn.</param>
/// <param name="Meets">When the satellite comes to where the turn leads.</param>
public readonly record struct OverheadPlan(OverheadWay Way, double StandsFrom, double Azimuth, double Elevation, double TurnsAt, double Meets);

/// <summary>A way past the top and what it costs.</summary>
/// <param name="Plan">The way at its best moment.</param>
/// <param name="Pan">How far the pan turns, degrees on its scale, positive = right.</param>
/// <param name="Tilt">How far the tilt moves with it, positive = up; over the top from side to side.</param>
/// <param name="LinesLost">Picture lines expected to be lost about the culmination.</param>
public sealed record OverheadCost(OverheadPlan Plan, double Pan, double Tilt, double LinesLost);

/// <summary>The ways past the top of one pass; times in seconds of its <see cref="Estimate.SkyTable"/>.</summary>
/// <param name="Culminates">When the satellite is highest.</param>
/// <param name="Turn">Turning while the satellite culminates.</param>
/// <param name="Wait">Standing through it and turning later.</param>
/// <param name="Over">Tilting over the top; null for a head that cannot.</param>
public sealed record OverheadChoice(double Culminates, OverheadCost Turn, OverheadCost Wait, OverheadCost? Over)
{
    /// <summary>The way that is expected to lose the fewest lines.</summary>
    public OverheadCost Best
    {
        get
        {
            OverheadCost best = Wait.LinesLost < Turn.LinesLost ? Wait : Turn;
            return Over is { } over && over.LinesLost < best.LinesLost ? over : best;
        }
    }
}
