using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Chooses how a head with pan and tilt gets past the top of a high pass: what is expected to lose the fewest lines. Pure.</summary>
/// <remarks>
/// While a dish that points at the culmination keeps the satellite within 1 dB, the pan does not follow: it turns, or it stands all the while and turns later. Each
/// way is counted over the same time at every half second to two seconds at which its turn may begin, and its cheapest stands for it.
/// </remarks>
public static class OverheadChooser
{
    private const double Step = 0.5;
    private const double TopLossDb = 1.0;
    private const double Farthest = 120.0;
    private const double MeetsLeast = 2.0;
    private const double MeetsMost = 14.0;
    private const double MeetsStep = 2.0;

    /// <summary>The ways past the top of the pass of an estimate, for its hand and its beam.</summary>
    /// <param name="estimate">Only what it was made for is read, not what it believes.</param>
    /// <param name="culminates">When the satellite is highest, s of the estimate.</param>
    /// <param name="overTheTop">Whether the tilt of the head can go beyond 90 degrees.</param>
    public static OverheadChoice Choose(DishEstimate estimate, double culminates, bool overTheTop)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        return Choose(estimate.Sky, estimate.Start.Hand, estimate.Start.BeamWidth, culminates, overTheTop);
    }

    /// <summary>The ways past the top of a pass.</summary>
    /// <param name="sky">The pass.</param>
    /// <param name="hand">Whose hand.</param>
    /// <param name="beamWidth">Half-power width of the beam, degrees, positive.</param>
    /// <param name="culminates">When the satellite is highest, s of the table.</param>
    /// <param name="overTheTop">Whether the tilt of the head can go beyond 90 degrees.</param>
    public static OverheadChoice Choose(SkyTable sky, HandModel hand, double beamWidth, double culminates, bool overTheTop)
    {
        ArgumentNullException.ThrowIfNull(sky);
        ArgumentNullException.ThrowIfNull(hand);
        double begin = Edge(sky, culminates, -Step, beamWidth);
        double end = Edge(sky, culminates, Step, beamWidth);
        double stays = end - begin;
        OverheadCount count = new(sky, hand, beamWidth, begin - stays, end + (2.0 * stays));
        SkyPoint before = sky.At(begin);
        return new OverheadChoice(
            culminates,
            Cheapest(count, Turns(before, begin, end)),
            Cheapest(count, Waits(before, Stand(count, before, begin, end), begin, end)),
            overTheTop ? Cheapest(count, Overs(sky, begin, end)) : null);
    }

    private static IEnumerable<OverheadPlan> Turns(SkyPoint before, double begin, double end)
    {
        // In a beam too narrow to wait at the top there is one moment for the turn, and no span.
        double at = begin;
        do
        {
            yield return new OverheadPlan(OverheadWay.Turn, begin, before.Azimuth, before.Elevation, at, end);
            at += Step;
        }
        while (at < end);
    }

    private static IEnumerable<OverheadPlan> Waits(SkyPoint before, double elevation, double begin, double end)
    {
        for (double at = end; at <= end + (end - begin); at += 2.0 * Step)
        {
            for (double ahead = MeetsLeast; ahead <= MeetsMost; ahead += MeetsStep)
            {
                yield return new OverheadPlan(OverheadWay.Wait, begin, before.Azimuth, elevation, at, at + ahead);
            }
        }
    }

    private static IEnumerable<OverheadPlan> Overs(SkyTable sky, double begin, double end)
    {
        for (double from = begin - (end - begin); from <= begin; from += 4.0 * Step)
        {
            double azimuth = sky.At(from).Azimuth;
            for (double at = end; at <= end + (end - begin); at += 4.0 * Step)
            {
                yield return new OverheadPlan(OverheadWay.OverTheTop, from, azimuth, 90.0, at, at + MeetsLeast);
                yield return new OverheadPlan(OverheadWay.OverTheTop, from, azimuth, 90.0, at, at + (3.0 * MeetsLeast));
            }
        }
    }

    private static OverheadCost Cheapest(OverheadCount count, IEnumerable<OverheadPlan> plans) => plans.Select(count.Of).MinBy(c => c.LinesLost)
        ?? throw new InvalidOperationException("There is always a time at which to turn.");

    /// <summary>The tilt at which a dish whose pan stands keeps the satellite best through the culmination.</summary>
    private static double Stand(OverheadCount count, SkyPoint before, double begin, double end)
    {
        double best = before.Elevation;
        double least = double.PositiveInfinity;
        for (double elevation = before.Elevation; elevation <= 90.0; elevation += 0.5)
        {
            double lost = 0.0;
            for (double t = begin; t < end; t += Step)
            {
                lost += count.Standing(t, before.Azimuth, elevation);
            }

            (best, least) = lost < least ? (elevation, lost) : (best, least);
        }

        return best;
    }

    /// <summary>When the satellite leaves the 1 dB about its culmination, on one side.</summary>
    private static double Edge(SkyTable sky, double top, double step, double beamWidth)
    {
        double square = TopLossDb / 12.0 * beamWidth * beamWidth;
        Vector highest = sky.At(top).Direction;
        double at = top + step; // however narrow the beam, there is a time at the top
        while (Math.Abs(at - top) < Farthest && sky.At(at).Direction.SquareTo(highest) <= square)
        {
            at += step;
        }

        return at;
    }
}
