namespace Cockpit.Core.Orbit.Theory;

/// <summary>The eccentric orbit of half a day: terms of the harmonics (2,2), (3,2), (4,4), (5,2), (5,4).</summary>
/// <remarks>Spacetrack Report No. 3 (1980), section 7: D_lmpq from inclination functions F, eccentricity functions G.</remarks>
internal sealed class HalfDayResonance : Resonance
{
    private const double Root22 = 1.7891679e-6;
    private const double Root32 = 3.7393792e-7;
    private const double Root44 = 7.3636953e-9;
    private const double Root52 = 1.1428639e-7;
    private const double Root54 = 2.1765803e-9;
    private const double Phase22 = 5.7686396;
    private const double Phase32 = 0.95240898;
    private const double Phase44 = 1.8014998;
    private const double Phase52 = 1.0508330;
    private const double Phase54 = 4.4108898;
    private readonly double _perigee;
    private readonly double _perigeeRate;
    private readonly double _d2201;
    private readonly double _d2211;
    private readonly double _d3210;
    private readonly double _d3222;
    private readonly double _d4410;
    private readonly double _d4422;
    private readonly double _d5220;
    private readonly double _d5232;
    private readonly double _d5421;
    private readonly double _d5433;

    internal HalfDayResonance(in EpochOrbit o, in Secular s, in LunarSolarRates pull, double sidereal)
        : base(
            o.MeanMotion,
            o.MeanAnomaly + (2.0 * o.Node) - (2.0 * sidereal),
            s.MeanAnomalyRate + pull.MeanAnomaly + (2.0 * (s.NodeRate + pull.Node - EarthRate)) - o.MeanMotion,
            sidereal)
    {
        _perigee = o.ArgumentOfPerigee;
        _perigeeRate = s.PerigeeRate;
        var g = new EccentricityFunctions(o.Eccentricity);
        double c = o.CosI;
        double c2 = o.Theta2;
        double sin = o.SinI;
        double sin2 = sin * sin;

        double f220 = 0.75 * (1.0 + (2.0 * c) + c2);
        double f221 = 1.5 * sin2;
        double f321 = 1.875 * sin * (1.0 - (2.0 * c) - (3.0 * c2));
        double f322 = -1.875 * sin * (1.0 + (2.0 * c) - (3.0 * c2));
        double f441 = 35.0 * sin2 * f220;
        double f442 = 39.3750 * sin2 * sin2;
        double f522 = 9.84375 * sin * ((sin2 * (1.0 - (2.0 * c) - (5.0 * c2))) + (0.33333333 * (-2.0 + (4.0 * c) + (6.0 * c2))));
        double f523 = sin * ((4.92187512 * sin2 * (-2.0 - (4.0 * c) + (10.0 * c2))) + (6.56250012 * (1.0 + (2.0 * c) - (3.0 * c2))));
        double f542 = 29.53125 * sin * (2.0 - (8.0 * c) + (c2 * (-12.0 + (8.0 * c) + (10.0 * c2))));
        double f543 = 29.53125 * sin * (-2.0 - (8.0 * c) + (c2 * (12.0 + (8.0 * c) - (10.0 * c2))));

        double perA = 1.0 / o.SemiMajorAxis;
        double second = 3.0 * o.MeanMotion * o.MeanMotion * perA * perA;
        double third = second * perA;
        double fourth = third * perA;
        double fifth = fourth * perA;
        _d2201 = second * Root22 * f220 * g.G201;
        _d2211 = second * Root22 * f221 * g.G211;
        _d3210 = third * Root32 * f321 * g.G310;
        _d3222 = third * Root32 * f322 * g.G322;
        _d4410 = 2.0 * fourth * Root44 * f441 * g.G410;
        _d4422 = 2.0 * fourth * Root44 * f442 * g.G422;
        _d5220 = fifth * Root52 * f522 * g.G520;
        _d5232 = fifth * Root52 * f523 * g.G532;
        _d5421 = 2.0 * fifth * Root54 * f542 * g.G521;
        _d5433 = 2.0 * fifth * Root54 * f543 * g.G533;
    }

    /// <summary>Whether an orbit is in this resonance: 680 to 760 min and an eccentricity from one half on.</summary>
    internal static bool Holds(in EpochOrbit o) => o.MeanMotion is >= 8.26e-3 and <= 9.24e-3 && o.Eccentricity >= 0.5;

    /// <inheritdoc/>
    protected override ResonanceRates Rates(double longitude, double longitudeRate, double t)
    {
        double w = _perigee + (_perigeeRate * t);
        double rate = 0.0;
        double secondRate = 0.0;
        Add(_d2201, (2.0 * w) + longitude - Phase22, 1.0, ref rate, ref secondRate);
        Add(_d2211, longitude - Phase22, 1.0, ref rate, ref secondRate);
        Add(_d3210, w + longitude - Phase32, 1.0, ref rate, ref secondRate);
        Add(_d3222, longitude - w - Phase32, 1.0, ref rate, ref secondRate);
        Add(_d4410, (2.0 * w) + (2.0 * longitude) - Phase44, 2.0, ref rate, ref secondRate);
        Add(_d4422, (2.0 * longitude) - Phase44, 2.0, ref rate, ref secondRate);
        Add(_d5220, w + longitude - Phase52, 1.0, ref rate, ref secondRate);
        Add(_d5232, longitude - w - Phase52, 1.0, ref rate, ref secondRate);
        Add(_d5421, w + (2.0 * longitude) - Phase54, 2.0, ref rate, ref secondRate);
        Add(_d5433, (2.0 * longitude) - w - Phase54, 2.0, ref rate, ref secondRate);
        return new ResonanceRates(rate, longitudeRate, secondRate * longitudeRate);
    }

    /// <inheritdoc/>
    protected override double MeanAnomaly(double longitude, double sidereal, in MeanElements m) =>
        longitude - (2.0 * m.Node) + (2.0 * sidereal);

    private static void Add(double strength, double argument, double multiple, ref double rate, ref double secondRate)
    {
        (double sin, double cos) = Math.SinCos(argument);
        rate += strength * sin;
        secondRate += multiple * strength * cos;
    }
}
