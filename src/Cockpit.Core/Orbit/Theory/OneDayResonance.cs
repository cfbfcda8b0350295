namespace Cockpit.Core.Orbit.Theory;

/// <summary>The synchronous orbit of one day: terms of the tesseral harmonics (2,2), (3,1), (3,3).</summary>
/// <remarks>Spacetrack Report No. 3 (1980), section 7: δ1, δ2, δ3 and the phases λ31, λ22, λ33.</remarks>
internal sealed class OneDayResonance : Resonance
{
    private const double Q22 = 1.7891679e-6;
    private const double Q31 = 2.1460748e-6;
    private const double Q33 = 2.2123015e-7;
    private const double Phase31 = 0.13130908;
    private const double Phase22 = 2.8843198;
    private const double Phase33 = 0.37448087;
    private readonly double _delta1;
    private readonly double _delta2;
    private readonly double _delta3;

    internal OneDayResonance(in EpochOrbit o, in Secular s, in LunarSolarRates pull, double sidereal)
        : base(
            o.MeanMotion,
            o.MeanAnomaly + o.Node + o.ArgumentOfPerigee - sidereal,
            s.MeanAnomalyRate + s.PerigeeRate + s.NodeRate - EarthRate + pull.MeanAnomaly + pull.Perigee + pull.Node - o.MeanMotion,
            sidereal)
    {
        double e2 = o.Eccentricity * o.Eccentricity;
        double onePlus = 1.0 + o.CosI;
        double g200 = 1.0 + (e2 * (-2.5 + (0.8125 * e2)));
        double g310 = 1.0 + (2.0 * e2);
        double g300 = 1.0 + (e2 * (-6.0 + (6.60937 * e2)));
        double f220 = 0.75 * onePlus * onePlus;
        double f311 = (0.9375 * o.SinI * o.SinI * (1.0 + (3.0 * o.CosI))) - (0.75 * onePlus);
        double f330 = 1.875 * onePlus * onePlus * onePlus;
        double perA = 1.0 / o.SemiMajorAxis;
        double common = 3.0 * o.MeanMotion * o.MeanMotion * perA * perA;
        _delta1 = common * f311 * g310 * Q31 * perA;
        _delta2 = 2.0 * common * f220 * g200 * Q22;
        _delta3 = 3.0 * common * f330 * g300 * Q33 * perA;
    }

    /// <summary>Whether an orbit is in this resonance: 1200 to 1800 min.</summary>
    internal static bool Holds(in EpochOrbit o) => o.MeanMotion is > 0.0034906585 and < 0.0052359877;

    /// <inheritdoc/>
    protected override ResonanceRates Rates(double longitude, double longitudeRate, double t)
    {
        (double sin1, double cos1) = Math.SinCos(longitude - Phase31);
        (double sin2, double cos2) = Math.SinCos(2.0 * (longitude - Phase22));
        (double sin3, double cos3) = Math.SinCos(3.0 * (longitude - Phase33));
        return new ResonanceRates(
            (_delta1 * sin1) + (_delta2 * sin2) + (_delta3 * sin3),
            longitudeRate,
            ((_delta1 * cos1) + (2.0 * _delta2 * cos2) + (3.0 * _delta3 * cos3)) * longitudeRate);
    }

    /// <inheritdoc/>
    protected override double MeanAnomaly(double longitude, double sidereal, in MeanElements m) =>
        longitude - m.Node - m.ArgumentOfPerigee + sidereal;
}
