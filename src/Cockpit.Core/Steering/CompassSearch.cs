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
    private const double Far = 3.0;
    private const double Reach = 0.4;
    private const double MadeShare = 0.85;

    private readonly (double Compass, double Tilt)[] _failed = new (double, double)[Most];
    private int _next;

    /// <summary>How many looks found nothing.</summary>
    public int Count { get; private set; }

    /// <summary>A look that allowed for these errors found nothing.</summary>
    public void Failed(double compass, double tilt)
    {
        _failed[_next] = (compass, tilt);
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
        double left = Math.Exp(-0.5 * ((x * x) + (y * y)));
        double reach = Reach * beamWidth;
        for (int i = 0; i < Count; i++)
        {
            double right = (compass - _failed[i].Compass) * share;
            double up = tilt - _failed[i].Tilt;
            left *= 1.0 - (MadeShare * Math.Exp(-0.5 * ((right * right) + (up * up)) / (reach * reach)));
        }

        return left;
    }
}
