using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Where to look next by compass when the last looks found nothing: the most probable errors of the instruments that were not tried yet. Degrees.</summary>
/// <remarks>
/// The errors of compass and inclinometer are constant in a pass, so a look that found nothing speaks against the errors that it allowed
/// for, as far as the beam reaches. It may also have been a look that was never made, so it never rules them out. Allocates only when made.
/// </remarks>
internal sealed class CompassSearch(HandModel hand, double beamWidth)
{
    private const int Most = 16;
    private const double Step = 3.0;
    private const double Far = 4.0;
    private const double HeardOverFloorDb = 3.0;
    private const double Edge = 3.0;
    private const double Freedom = 5.0;
    private const double MadeShare = 0.85;

    private readonly (double Compass, double Tilt, double Reach)[] _failed = new (double, double, double)[Most];
    private int _next;

    /// <summary>How many looks found nothing.</summary>
    public int Count { get; private set; }

    /// <summary>A look that allowed for these errors found nothing.</summary>
    /// <param name="compass">Error of the compass, degrees.</param>
    /// <param name="tilt">Error of the inclinometer, degrees.</param>
    /// <param name="overFloorDb">How far a well-pointed dish should hear the satellite over the floor: so far beside it the look would have heard it too.</param>
    public void Failed(double compass, double tilt, double overFloorDb)
    {
        double widths = Math.Sqrt(Math.Clamp((overFloorDb - HeardOverFloorDb) / 12.0, 0.2, 0.8));
        _failed[_next] = (compass, tilt, widths * beamWidth);
        _next = (_next + 1) % Most;
        Count = Math.Min(Most, Count + 1);
    }

    /// <summary>The most probable errors that are left.</summary>
    /// <param name="elevation">Where the next look goes.</param>
    public (double Compass, double Tilt) Best(double elevation)
    {
        double share = HeadMotion.PanShare(elevation);
        double widest = Far * hand.CompassDegrees;
        double highest = Far * hand.InclinometerDegrees;
        double best = -1.0;
        (double Compass, double Tilt) answer = (0.0, 0.0);
        for (double compass = -Math.Floor(widest / Step) * Step; compass <= widest; compass += Step)
        {
            for (double tilt = -Math.Floor(highest / Step) * Step; tilt <= highest; tilt += Step)
            {
                double left = Left(compass, tilt, share);
                if (left > best)
                {
                    best = left;
                    answer = (compass, tilt);
                }
            }
        }

        return answer;
    }

    private double Left(double compass, double tilt, double share)
    {
        double x = compass / hand.CompassDegrees;
        double y = tilt / hand.InclinometerDegrees;

        // Student's t: an instrument beside iron errs far more than usual.
        double tail = 1.0 + (((x * x) + (y * y)) / Freedom);
        double left = 1.0 / (tail * tail * tail);
        for (int i = 0; i < Count; i++)
        {
            double right = (compass - _failed[i].Compass) * share;
            double up = tilt - _failed[i].Tilt;
            left *= 1.0 - (MadeShare * Normal.Below((_failed[i].Reach - Math.Sqrt((right * right) + (up * up))) / Edge));
        }

        return left;
    }
}
