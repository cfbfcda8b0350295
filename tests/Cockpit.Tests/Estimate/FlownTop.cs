using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;

namespace Cockpit.Tests.Estimate;

/// <summary>Flies a way past the top many times with errors drawn by chance, and counts the lines of each flight, a sixth of a second at a time.</summary>
/// <param name="sky">The pass.</param>
/// <param name="hand">Whose hand.</param>
/// <param name="width">Width of the beam, degrees.</param>
/// <param name="turn">The turn at the top: it holds begin and end of the time about the culmination.</param>
internal sealed class FlownTop(SkyTable sky, HandModel hand, double width, OverheadPlan turn)
{
    private const int Flights = 60;
    private const double Line = 1.0 / 6.0;

    private readonly (double Size, double TiltSize, double X, double Y)[] _errors = Drawn(hand);

    public double Lost(OverheadPlan plan)
    {
        bool over = plan.Way == OverheadWay.OverTheTop;
        SkyPoint goal = sky.At(plan.Meets);
        double from = over ? Nearest(plan.Azimuth, plan.TurnsAt) : plan.Elevation;
        double tilt = (over ? 180.0 - goal.Elevation : goal.Elevation) - from;
        double pan = Math.IEEERemainder(goal.Azimuth + (over ? 180.0 : 0.0) - plan.Azimuth, 360.0);
        double angle = Math.Acos(CosineBetween(plan.Azimuth, from, goal.Azimuth, goal.Elevation)) * (180.0 / Math.PI);
        double takes = hand.SecondsOf(pan, tilt, angle);
        double follows = Math.Max(plan.Meets, plan.TurnsAt + takes + 1.3 + hand.ReactionSeconds + hand.MoveSeconds);
        double stays = turn.Meets - turn.StandsFrom;
        double lost = 0.0;
        for (double t = turn.StandsFrom - stays; t < turn.Meets + (2.0 * stays); t += Line)
        {
            SkyPoint point = sky.At(t);
            bool following = t < plan.StandsFrom || t >= follows;
            double done = Math.Clamp((t - plan.TurnsAt) / takes, 0.0, 1.0);
            double stands = following ? point.Elevation : t >= plan.TurnsAt || !over ? from : Nearest(plan.Azimuth, t);
            foreach ((double size, double tiltSize, double x, double y) in _errors)
            {
                double cosine = following ? 1.0 : CosineBetween(plan.Azimuth + (pan * size * done), stands + (tilt * tiltSize * done), point.Azimuth, point.Elevation);

                // The errors of any move come on top of the miss, in a direction of their own.
                double along = (Math.Acos(Math.Clamp(cosine, -1.0, 1.0)) * (180.0 / Math.PI)) + x;
                double db = Math.Min(20.0, 12.0 * ((along * along) + (y * y)) / (width * width));
                double sd = Math.Sqrt((point.FadingDb * point.FadingDb) + 0.25 + (2.5 * 2.5) + (1.5 * 1.5));
                lost += MathNet.Numerics.Distributions.Normal.CDF(point.MarginDb, sd, db);
            }
        }

        return lost / Flights;
    }

    private static (double Size, double TiltSize, double X, double Y)[] Drawn(HandModel hand)
    {
        Xoshiro256 chance = new(77, 3);
        var errors = new (double, double, double, double)[Flights];
        for (int i = 0; i < Flights; i++)
        {
            errors[i] = (
                1.0 + (hand.SizeError * chance.NextNormal()),
                1.0 + (hand.SizeError * chance.NextNormal()),
                hand.FloorErrorDegrees * chance.NextNormal(),
                hand.FloorErrorDegrees * chance.NextNormal());
        }

        return errors;
    }

    /// <summary>The tilt nearest to the satellite while the pan stands, by trying them all.</summary>
    private double Nearest(double azimuth, double t)
    {
        SkyPoint point = sky.At(t);
        double best = 0.0;
        double highest = double.NegativeInfinity;
        for (double tilt = 50.0; tilt <= 130.0; tilt += 0.5)
        {
            double cosine = CosineBetween(azimuth, tilt, point.Azimuth, point.Elevation);
            (best, highest) = cosine > highest ? (tilt, cosine) : (best, highest);
        }

        return best;
    }

    private static double CosineBetween(double azimuth, double elevation, double otherAzimuth, double otherElevation)
    {
        const double Radians = Math.PI / 180.0;
        (double sin, double cos) = Math.SinCos(elevation * Radians);
        (double otherSin, double otherCos) = Math.SinCos(otherElevation * Radians);
        return (sin * otherSin) + (cos * otherCos * Math.Cos((azimuth - otherAzimuth) * Radians));
    }
}
