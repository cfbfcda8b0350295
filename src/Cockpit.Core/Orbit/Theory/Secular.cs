namespace Cockpit.Core.Orbit.Theory;

/// <summary>Secular effects of gravity and drag: the coefficients of one element set.</summary>
/// <remarks>
/// Spacetrack Report No. 3 (1980), section 6, from "s* and (q0 - s)^4" to the end of the secular update, with its symbols
/// (C1..C5, D2..D4, eta, xi). AIAA 2006-6753: C3 and the mean-anomaly term are left out for e up to 1e-4.
/// </remarks>
internal readonly struct Secular
{
    internal readonly double MeanAnomalyRate;
    internal readonly double PerigeeRate;
    internal readonly double NodeRate;
    internal readonly double NodeDrag;
    internal readonly double BC4;
    internal readonly double BC5;
    internal readonly double C1;
    internal readonly double D2;
    internal readonly double D3;
    internal readonly double D4;
    internal readonly double T2;
    internal readonly double T3;
    internal readonly double T4;
    internal readonly double T5;
    internal readonly double Eta;
    internal readonly double PerigeeDrag;
    internal readonly double AnomalyDrag;
    internal readonly double AnomalyStart;
    internal readonly double SinAnomalyStart;

    /// <summary>The higher terms of drag are in use: a near-earth orbit with its perigee above 220 km.</summary>
    internal readonly bool Full;

    internal Secular(in EpochOrbit o)
    {
        double a = o.SemiMajorAxis;
        double n = o.MeanMotion;
        double e = o.Eccentricity;
        double theta2 = o.Theta2;
        double theta4 = theta2 * theta2;
        double s = o.DensityBottom;

        double xi = 1.0 / (a - s);
        double eta = a * e * xi;
        double eta2 = eta * eta;
        double eEta = e * eta;
        double psi2 = Math.Abs(1.0 - eta2);
        double strength = o.DensityDepth4 * xi * xi * xi * xi;
        double strengthPsi = strength / (psi2 * psi2 * psi2 * Math.Sqrt(psi2));
        double x3 = (3.0 * theta2) - 1.0;
        double x1 = 1.0 - theta2;

        double c2 = strengthPsi * n
            * ((a * (1.0 + (1.5 * eta2) + (eEta * (4.0 + eta2))))
                + (0.375 * Wgs72.J2 * xi / psi2 * x3 * (8.0 + (3.0 * eta2 * (8.0 + eta2)))));
        double c1 = o.BStar * c2;
        double oblateness = (-3.0 * x3 * (1.0 - (2.0 * eEta) + (eta2 * (1.5 - (0.5 * eEta)))))
            + (0.75 * x1 * ((2.0 * eta2) - (eEta * (1.0 + eta2))) * Math.Cos(2.0 * o.ArgumentOfPerigee));
        double c4 = 2.0 * n * strengthPsi * a * o.Beta2
            * ((eta * (2.0 + (0.5 * eta2))) + (e * (0.5 + (2.0 * eta2)))
                - (Wgs72.J2 * xi / (a * psi2) * oblateness));
        double c5 = 2.0 * strengthPsi * a * o.Beta2 * (1.0 + (2.75 * (eta2 + eEta)) + (eEta * eta2));

        // Rates from the zonal harmonics: k2, k2² and k4 terms of the report.
        double p = a * o.Beta2;
        double p2Inverse = 1.0 / (p * p);
        double first = 1.5 * Wgs72.J2 * p2Inverse * n;
        double second = 0.5 * first * Wgs72.J2 * p2Inverse;
        double fourth = -0.46875 * Wgs72.J4 * p2Inverse * p2Inverse * n;
        MeanAnomalyRate = n + (0.5 * first * o.Beta * x3)
            + (0.0625 * second * o.Beta * (13.0 - (78.0 * theta2) + (137.0 * theta4)));
        PerigeeRate = (-0.5 * first * (1.0 - (5.0 * theta2)))
            + (0.0625 * second * (7.0 - (114.0 * theta2) + (395.0 * theta4)))
            + (fourth * (3.0 - (36.0 * theta2) + (49.0 * theta4)));
        double nodeFirst = -first * o.CosI;
        NodeRate = nodeFirst
            + (((0.5 * second * (4.0 - (19.0 * theta2))) + (2.0 * fourth * (3.0 - (7.0 * theta2)))) * o.CosI);

        NodeDrag = 3.5 * o.Beta2 * nodeFirst * c1;
        BC4 = o.BStar * c4;
        C1 = c1;
        T2 = 1.5 * c1;
        Full = !o.LowPerigee && !o.IsDeepSpace;
        if (!Full)
        {
            return;
        }

        BC5 = o.BStar * c5;
        Eta = eta;
        double c1Squared = c1 * c1;
        D2 = 4.0 * a * xi * c1Squared;
        double part = D2 * xi * c1 / 3.0;
        D3 = ((17.0 * a) + s) * part;
        D4 = 0.5 * part * a * xi * ((221.0 * a) + (31.0 * s)) * c1;
        T3 = D2 + (2.0 * c1Squared);
        T4 = 0.25 * ((3.0 * D3) + (c1 * ((12.0 * D2) + (10.0 * c1Squared))));
        T5 = 0.2 * ((3.0 * D4) + (12.0 * c1 * D3) + (6.0 * D2 * D2) + (15.0 * c1Squared * ((2.0 * D2) + c1Squared)));
        SinAnomalyStart = Math.Sin(o.MeanAnomaly);
        double start = 1.0 + (eta * Math.Cos(o.MeanAnomaly));
        AnomalyStart = start * start * start;
        if (e > 1e-4)
        {
            double c3 = -2.0 * strength * xi * Wgs72.J3OverJ2 * n * o.SinI / e;
            PerigeeDrag = o.BStar * c3 * Math.Cos(o.ArgumentOfPerigee);
            AnomalyDrag = -(2.0 / 3.0) * strength * o.BStar / eEta;
        }
    }
}
