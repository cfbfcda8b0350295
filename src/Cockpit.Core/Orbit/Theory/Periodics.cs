using System.Runtime.CompilerServices;
using Cockpit.Core.Geo;

namespace Cockpit.Core.Orbit.Theory;

/// <summary>What the periodic terms need to know about the inclination.</summary>
internal readonly struct InclinationTerms
{
    internal readonly double Sin;
    internal readonly double Cos;

    /// <summary>3 cos² i - 1.</summary>
    internal readonly double X3;

    /// <summary>1 - cos² i.</summary>
    internal readonly double X1;

    /// <summary>7 cos² i - 1.</summary>
    internal readonly double X7;

    /// <summary>Long-period coefficient of the longitude.</summary>
    internal readonly double LongitudeLong;

    /// <summary>Long-period coefficient of the eccentricity vector.</summary>
    internal readonly double EccentricityLong;

    internal InclinationTerms(double sin, double cos)
    {
        Sin = sin;
        Cos = cos;
        double theta2 = cos * cos;
        X3 = (3.0 * theta2) - 1.0;
        X1 = 1.0 - theta2;
        X7 = (7.0 * theta2) - 1.0;

        // The report divides by 1 + cos i; AIAA 2006-6753 keeps the divisor from vanishing at 180 degrees.
        double divisor = Math.Abs(1.0 + cos) > 1.5e-12 ? 1.0 + cos : 1.5e-12;
        LongitudeLong = -0.25 * Wgs72.J3OverJ2 * sin * (3.0 + (5.0 * cos)) / divisor;
        EccentricityLong = -0.5 * Wgs72.J3OverJ2 * sin;
    }
}

/// <summary>From mean elements at one instant to position and velocity.</summary>
/// <remarks>
/// Spacetrack Report No. 3 (1980), section 6: long-period terms, Kepler's equation, short-period terms, unit
/// orientation vectors. Limits and error codes as in AIAA 2006-6753. Where the report takes an angle out of a sine
/// and cosine to add a small term and goes back, here the direction is turned by the small term: the same to rounding.
/// </remarks>
internal static class Periodics
{
    /// <summary>Position and velocity, TEME; the state is all zeros when the status is not good.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static PropagationStatus Apply(in MeanElements m, in InclinationTerms i, out TemeState state)
    {
        state = default;
        double a = m.SemiMajorAxis;

        // Long-period terms: a_xN, a_yN, and the longitude counted from the node.
        (double sinPerigee, double cosPerigee) = Math.SinCos(m.ArgumentOfPerigee);
        double axn = m.Eccentricity * cosPerigee;
        double perP = 1.0 / (a * (1.0 - (m.Eccentricity * m.Eccentricity)));
        double ayn = (m.Eccentricity * sinPerigee) + (perP * i.EccentricityLong);
        double u = m.MeanAnomaly + m.ArgumentOfPerigee + (perP * i.LongitudeLong * axn);

        (double sinE, double cosE) = SolveKepler(u, axn, ayn);

        // Short-period preliminary quantities.
        double eCosE = (axn * cosE) + (ayn * sinE);
        double eSinE = (axn * sinE) - (ayn * cosE);
        double eL2 = (axn * axn) + (ayn * ayn);
        double pL = a * (1.0 - eL2);
        if (!(pL >= 0.0))
        {
            return PropagationStatus.SemiLatusRectumNegative;
        }

        double betaL = Math.Sqrt(1.0 - eL2);
        double rRatio = 1.0 / (1.0 - eCosE);
        double r = a * (1.0 - eCosE);
        double rDot = Math.Sqrt(a) * eSinE / r;
        double rfDot = Math.Sqrt(pL) / r;
        double share = eSinE / (1.0 + betaL);
        double sinU = rRatio * (sinE - ayn - (axn * share));
        double cosU = rRatio * (cosE - axn + (ayn * share));
        double sin2U = 2.0 * sinU * cosU;
        double cos2U = 1.0 - (2.0 * sinU * sinU);

        // Short-period terms.
        double perPl = 1.0 / pL;
        double first = 0.5 * Wgs72.J2 * perPl;
        double second = first * perPl;
        double rk = (r * (1.0 - (1.5 * second * betaL * i.X3))) + (0.5 * first * i.X1 * cos2U);
        double nFirst = m.MeanMotion * first / Wgs72.Ke;
        double rkDot = rDot - (nFirst * i.X1 * sin2U);
        double rfkDot = rfDot + (nFirst * ((i.X1 * cos2U) + (1.5 * i.X3)));
        if (!(rk >= 1.0))
        {
            return PropagationStatus.Decayed;
        }

        (sinU, cosU) = Rotation.Turn(sinU, cosU, -0.25 * second * i.X7 * sin2U);
        (double sinNode, double cosNode) = Math.SinCos(m.Node + (1.5 * second * i.Cos * sin2U));
        (double sinI, double cosI) = Rotation.Turn(i.Sin, i.Cos, 1.5 * second * i.Cos * i.Sin * cos2U);

        // Unit vectors: U towards the satellite, V ahead in the orbit's plane.
        double mx = -sinNode * cosI;
        double my = cosNode * cosI;
        double ux = (mx * sinU) + (cosNode * cosU);
        double uy = (my * sinU) + (sinNode * cosU);
        double uz = sinI * sinU;
        double vx = (mx * cosU) - (cosNode * sinU);
        double vy = (my * cosU) - (sinNode * sinU);
        double vz = sinI * cosU;

        double km = rk * Wgs72.EarthRadiusKm;
        double along = rkDot * Wgs72.KmPerSecond;
        double across = rfkDot * Wgs72.KmPerSecond;
        state = new TemeState(
            km * ux, km * uy, km * uz,
            (along * ux) + (across * vx), (along * uy) + (across * vy), (along * uz) + (across * vz));
        return PropagationStatus.Good;
    }

    /// <summary>Sine and cosine of E + ω that solve U = (E + ω) + a_yN cos(E + ω) - a_xN sin(E + ω).</summary>
    /// <remarks>
    /// Newton's steps, each at most 0.95 rad, until one is below 1e-12 rad; that one is no longer taken, nor is a tenth
    /// (AIAA 2006-6753; at an eccentricity of 0.97 its printed digits show the missing tenth step).
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (double Sin, double Cos) SolveKepler(double u, double axn, double ayn)
    {
        (double sin, double cos) = Math.SinCos(u);
        double offset = 0.0;
        for (int k = 0; k < 9; k++)
        {
            double step = ((axn * sin) - (ayn * cos) - offset) / (1.0 - (axn * cos) - (ayn * sin));
            if (Math.Abs(step) < 1e-12)
            {
                break;
            }

            step = Math.Clamp(step, -0.95, 0.95);
            offset += step;
            (sin, cos) = Rotation.Turn(sin, cos, step);
        }

        return (sin, cos);
    }
}
