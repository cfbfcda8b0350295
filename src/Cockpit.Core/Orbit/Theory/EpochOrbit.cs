namespace Cockpit.Core.Orbit.Theory;

/// <summary>The elements at epoch in the theory's own units (earth radii, minutes, radians), and what follows from them alone.</summary>
/// <remarks>
/// Spacetrack Report No. 3 (1980), section 6, first equations (recovery of the original mean motion and semi-major axis);
/// AIAA 2006-6753 for the semi-major axis from the recovered mean motion and for the atmosphere's density fit below 156 km.
/// </remarks>
internal readonly struct EpochOrbit
{
    /// <summary>Height, km, of the upper reference of the density function: q0.</summary>
    private const double DensityTopKm = 120.0;

    internal EpochOrbit(EpochElements elements)
    {
        Eccentricity = elements.Eccentricity;
        Inclination = elements.Inclination;
        Node = elements.Node;
        ArgumentOfPerigee = elements.ArgumentOfPerigee;
        MeanAnomaly = elements.MeanAnomaly;
        BStar = elements.BStar;
        (SinI, CosI) = Math.SinCos(Inclination);

        double kozai = elements.RevolutionsPerDay / (1440.0 / Math.Tau);
        Beta2 = 1.0 - (Eccentricity * Eccentricity);
        Beta = Math.Sqrt(Beta2);
        Theta2 = CosI * CosI;

        // a1, delta1, a0, delta0 of the report; with k2 = J2/2 the common factor is 3/4 J2.
        double factor = 0.75 * Wgs72.J2 * ((3.0 * Theta2) - 1.0) / (Beta * Beta2);
        double a1 = Math.Pow(Wgs72.Ke / kozai, 2.0 / 3.0);
        double delta1 = factor / (a1 * a1);
        double a0 = a1 * (1.0 - (delta1 * ((1.0 / 3.0) + (delta1 * (1.0 + (delta1 * 134.0 / 81.0))))));
        double delta0 = factor / (a0 * a0);
        MeanMotion = kozai / (1.0 + delta0);
        SemiMajorAxis = Math.Pow(Wgs72.Ke / MeanMotion, 2.0 / 3.0);

        double perigeeKm = ((SemiMajorAxis * (1.0 - Eccentricity)) - 1.0) * Wgs72.EarthRadiusKm;
        double lowKm = perigeeKm switch { < 98.0 => 20.0, < 156.0 => perigeeKm - 78.0, _ => 78.0 };
        DensityBottom = (lowKm / Wgs72.EarthRadiusKm) + 1.0;
        double depth = (DensityTopKm - lowKm) / Wgs72.EarthRadiusKm;
        DensityDepth4 = depth * depth * depth * depth;
        LowPerigee = perigeeKm < 220.0;
    }

    /// <summary>Recovered mean motion n0'', rad/min.</summary>
    internal double MeanMotion { get; }

    /// <summary>Recovered semi-major axis a0'', earth radii.</summary>
    internal double SemiMajorAxis { get; }

    internal double Eccentricity { get; }

    internal double Inclination { get; }

    internal double SinI { get; }

    internal double CosI { get; }

    /// <summary>cos² of the inclination.</summary>
    internal double Theta2 { get; }

    internal double Node { get; }

    internal double ArgumentOfPerigee { get; }

    internal double MeanAnomaly { get; }

    internal double BStar { get; }

    /// <summary>1 - e².</summary>
    internal double Beta2 { get; }

    /// <summary>Its square root.</summary>
    internal double Beta { get; }

    /// <summary>The parameter s of the density function, earth radii.</summary>
    internal double DensityBottom { get; }

    /// <summary>(q0 - s)⁴ of the density function.</summary>
    internal double DensityDepth4 { get; }

    /// <summary>The perigee is below 220 km: the theory drops the higher terms of drag.</summary>
    internal bool LowPerigee { get; }

    /// <summary>Period 225 minutes or more: the pull of sun and moon counts (report, section 3).</summary>
    internal bool IsDeepSpace => Math.Tau / MeanMotion >= 225.0;
}
