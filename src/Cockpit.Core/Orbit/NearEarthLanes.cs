using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Core.Orbit;

/// <summary>Four instants of one near-earth element set at once: the equations of <see cref="Sgp4"/> and <see cref="Periodics"/> in lanes.</summary>
/// <remarks>
/// Radians, earth radii, minutes. Sums are taken in the scalar form's order where an angle is built up, so that both stay
/// within rounding. What is out of the ordinary in any lane (an error code, a large correction) is left to the scalar form.
/// </remarks>
internal static class NearEarthLanes
{
    /// <summary>How many instants go together.</summary>
    internal const int Count = 4;
    private const double SmallTurn = 0.02;

    /// <summary>Propagates four instants.</summary>
    /// <param name="o">The orbit at its epoch.</param>
    /// <param name="s">Its secular coefficients.</param>
    /// <param name="i">Its inclination terms.</param>
    /// <param name="t">Minutes since the epoch.</param>
    /// <param name="states">Four states, written only on success.</param>
    /// <returns>False where the scalar form must do it.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static bool TryPropagate(
        in EpochOrbit o, in Secular s, in InclinationTerms i, Vector256<double> t, Span<TemeState> states)
    {
        Vector256<double> one = Vector256<double>.One;
        Vector256<double> t2 = t * t;
        Vector256<double> anomaly = Vector256.Create(o.MeanAnomaly) + (t * s.MeanAnomalyRate);
        Vector256<double> perigee = Vector256.Create(o.ArgumentOfPerigee) + (t * s.PerigeeRate);
        Vector256<double> node = Vector256.Create(o.Node) + (t * s.NodeRate) + (t2 * s.NodeDrag);
        Vector256<double> shrink = one - (t * s.C1);
        Vector256<double> loss = t * s.BC4;
        Vector256<double> advance = t2 * s.T2;
        Vector256<double> largest = Vector256<double>.Zero;
        if (s.Full)
        {
            (Vector256<double> sin, Vector256<double> cos) = Vector256.SinCos(anomaly);
            Vector256<double> now = one + (cos * s.Eta);
            Vector256<double> shift = (t * s.PerigeeDrag) + (((now * now * now) - Vector256.Create(s.AnomalyStart)) * s.AnomalyDrag);
            anomaly += shift;
            perigee -= shift;
            largest = Vector256.Abs(shift);
            shrink -= t2 * (Vector256.Create(s.D2) + (t * (Vector256.Create(s.D3) + (t * s.D4))));
            loss += (Turn(sin, cos, shift).Sin - Vector256.Create(s.SinAnomalyStart)) * s.BC5;
            advance += t2 * t * (Vector256.Create(s.T3) + (t * (Vector256.Create(s.T4) + (t * s.T5))));
        }

        Vector256<double> a = shrink * shrink * o.SemiMajorAxis;
        Vector256<double> e = Vector256.Create(o.Eccentricity) - loss;
        anomaly += advance * o.MeanMotion;

        // Long-period terms.
        (Vector256<double> sinPerigee, Vector256<double> cosPerigee) = Vector256.SinCos(perigee);
        Vector256<double> axn = e * cosPerigee;
        Vector256<double> perP = one / (a * (one - (e * e)));
        Vector256<double> ayn = (e * sinPerigee) + (perP * i.EccentricityLong);
        Vector256<double> u = anomaly + perigee + (perP * axn * i.LongitudeLong);
        (Vector256<double> sinE, Vector256<double> cosE) = SolveKepler(u, axn, ayn, ref largest);

        // Short-period terms.
        Vector256<double> eCosE = (axn * cosE) + (ayn * sinE);
        Vector256<double> eSinE = (axn * sinE) - (ayn * cosE);
        Vector256<double> betaL2 = one - ((axn * axn) + (ayn * ayn));
        Vector256<double> betaL = Vector256.Sqrt(betaL2);
        Vector256<double> perPl = one / (a * betaL2);
        Vector256<double> rootA = Vector256.Sqrt(a);
        Vector256<double> oneLess = one - eCosE;
        Vector256<double> rRatio = one / oneLess;
        Vector256<double> r = a * oneLess;
        Vector256<double> perRootR = rRatio / rootA;
        Vector256<double> share = eSinE / (one + betaL);
        Vector256<double> sinU = rRatio * (sinE - ayn - (axn * share));
        Vector256<double> cosU = rRatio * (cosE - axn + (ayn * share));
        Vector256<double> sin2U = (sinU + sinU) * cosU;
        Vector256<double> cos2U = one - ((sinU + sinU) * sinU);
        Vector256<double> first = perPl * (0.5 * Wgs72.J2);
        Vector256<double> second = first * perPl;
        Vector256<double> rk = (r * (one - (second * betaL * (1.5 * i.X3)))) + (first * cos2U * (0.5 * i.X1));
        Vector256<double> nFirst = first / (a * rootA);
        Vector256<double> rkDot = (eSinE * perRootR) - (nFirst * sin2U * i.X1);
        Vector256<double> rfkDot = (betaL * perRootR) + (nFirst * ((cos2U * i.X1) + Vector256.Create(1.5 * i.X3)));

        Vector256<double> byU = second * sin2U * (-0.25 * i.X7);
        Vector256<double> byI = second * cos2U * (1.5 * i.Cos * i.Sin);
        largest = Vector256.Max(largest, Vector256.Max(Vector256.Abs(byU), Vector256.Abs(byI)));
        bool ordinary = Vector256.LessThanAll(largest, Vector256.Create(SmallTurn))
            && Vector256.GreaterThanOrEqualAll(rk, one)
            && Vector256.GreaterThanOrEqualAll(e, Vector256.Create(1e-6))
            && Vector256.LessThanAll(e, one)
            && Vector256.GreaterThanAll(betaL2, Vector256<double>.Zero);
        if (!ordinary)
        {
            return false;
        }

        (sinU, cosU) = Turn(sinU, cosU, byU);
        (Vector256<double> sinNode, Vector256<double> cosNode) = Vector256.SinCos(node + (second * sin2U * (1.5 * i.Cos)));
        (Vector256<double> sinI, Vector256<double> cosI) = Turn(Vector256.Create(i.Sin), Vector256.Create(i.Cos), byI);

        Vector256<double> mx = -sinNode * cosI;
        Vector256<double> my = cosNode * cosI;
        Vector256<double> ux = (mx * sinU) + (cosNode * cosU);
        Vector256<double> uy = (my * sinU) + (sinNode * cosU);
        Vector256<double> uz = sinI * sinU;
        Vector256<double> km = rk * Wgs72.EarthRadiusKm;
        Vector256<double> along = rkDot * Wgs72.KmPerSecond;
        Vector256<double> across = rfkDot * Wgs72.KmPerSecond;
        Vector256<double> vx = (along * ux) + (across * ((mx * cosU) - (cosNode * sinU)));
        Vector256<double> vy = (along * uy) + (across * ((my * cosU) - (sinNode * sinU)));
        Vector256<double> vz = (along * uz) + (across * sinI * cosU);
        ux *= km;
        uy *= km;
        uz *= km;
        for (int lane = 0; lane < Count; lane++)
        {
            states[lane] = new TemeState(ux[lane], uy[lane], uz[lane], vx[lane], vy[lane], vz[lane]);
        }

        return true;
    }

    /// <summary>Newton's steps as in the scalar form, until every lane's step is below 1e-12 rad.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Sin, Vector256<double> Cos) SolveKepler(
        Vector256<double> u, Vector256<double> axn, Vector256<double> ayn, ref Vector256<double> largest)
    {
        (Vector256<double> sin, Vector256<double> cos) = Vector256.SinCos(u);
        Vector256<double> offset = Vector256<double>.Zero;
        Vector256<double> small = Vector256.Create(1e-12);
        for (int k = 0; k < 9; k++)
        {
            Vector256<double> step = ((axn * sin) - (ayn * cos) - offset) / (Vector256<double>.One - (axn * cos) - (ayn * sin));
            Vector256<double> size = Vector256.Abs(step);
            if (Vector256.LessThanAll(size, small))
            {
                return (sin, cos);
            }

            // A lane that has settled does not take its last step either, like the scalar form.
            step = Vector256.ConditionalSelect(Vector256.LessThan(size, small), Vector256<double>.Zero, step);
            offset += step;
            if (Vector256.LessThanAll(size, Vector256.Create(SmallTurn)))
            {
                (sin, cos) = Turn(sin, cos, step);
            }
            else
            {
                (sin, cos) = Vector256.SinCos(u + offset);
            }
        }

        // Not settled: the scalar form decides.
        largest = Vector256.Create(double.PositiveInfinity);
        return (sin, cos);
    }

    /// <summary>A direction turned by a small angle; the series of <see cref="Rotation.Of"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Sin, Vector256<double> Cos) Turn(Vector256<double> sin, Vector256<double> cos, Vector256<double> by)
    {
        Vector256<double> one = Vector256<double>.One;
        Vector256<double> x2 = by * by;
        Vector256<double> s = by * (one - (x2 * (1.0 / 6.0) * (one - (x2 * (1.0 / 20.0) * (one - (x2 * (1.0 / 42.0)))))));
        Vector256<double> c = one - (x2 * 0.5 * (one - (x2 * (1.0 / 12.0) * (one - (x2 * (1.0 / 30.0) * (one - (x2 * (1.0 / 56.0))))))));
        return ((sin * c) + (cos * s), (cos * c) - (sin * s));
    }
}
