using Cockpit.Core.Time;

namespace Cockpit.Core.Orbit.Theory;

/// <summary>Secular rates by sun and moon together, rad/min; of the eccentricity 1/min.</summary>
internal readonly record struct LunarSolarRates(double Eccentricity, double Inclination, double Node, double Perigee, double MeanAnomaly);

/// <summary>What is added to the theory for periods of 225 minutes and more: sun, moon, resonance.</summary>
/// <remarks>Spacetrack Report No. 3 (1980), section 7, with the corrections of AIAA 2006-6753 (improved mode).</remarks>
internal sealed class DeepSpace
{
    /// <summary>1900 January 0.5, from which the theory's expressions for sun and moon count.</summary>
    private static readonly JulianDate Origin = new(2415019.5, 0.5);

    /// <summary>Below this inclination, rad, the periodics are applied in Lyddane's form (report, section 7).</summary>
    private const double LyddaneBelow = 0.2;
    private readonly ThirdBody _sun;
    private readonly ThirdBody _moon;
    private readonly LunarSolarRates _rates;
    private readonly Resonance? _resonance;

    internal DeepSpace(in EpochOrbit o, in Secular s, JulianDate epoch)
    {
        // The published program keeps the epoch in one double, which resolves 40 µs. With the exact epoch a resonance drifts
        // from the published states by 1e-6 km in a month; a theory that is good to a kilometre is not better for it.
        var published = new JulianDate(epoch.Day + epoch.Fraction, 0.0);
        double days = published.DaysSince(Origin);
        _sun = SunAndMoon.Sun(o, days);
        _moon = SunAndMoon.Moon(o, days);
        BodyPull pull = _sun.Rates + _moon.Rates;
        double node = pull.H == 0.0 ? 0.0 : pull.H / o.SinI;
        _rates = new LunarSolarRates(pull.E, pull.I, node, pull.Gh - (o.CosI * node), pull.M);
        double sidereal = SiderealTime.Greenwich(published).Radians;
        _resonance = OneDayResonance.Holds(o) ? new OneDayResonance(o, s, _rates, sidereal)
            : HalfDayResonance.Holds(o) ? new HalfDayResonance(o, s, _rates, sidereal)
            : null;
    }

    /// <summary>Secular effects of sun and moon, then the resonance.</summary>
    internal void ApplySecular(double t, ref MeanElements m)
    {
        m.Eccentricity += _rates.Eccentricity * t;
        m.Inclination += _rates.Inclination * t;
        m.ArgumentOfPerigee += _rates.Perigee * t;
        m.Node += _rates.Node * t;
        m.MeanAnomaly += _rates.MeanAnomaly * t;
        _resonance?.Apply(t, ref m);
    }

    /// <summary>Long-period effects of sun and moon.</summary>
    internal PropagationStatus ApplyPeriodic(double t, ref MeanElements m)
    {
        BodyPull pull = _sun.Periodic(t) + _moon.Periodic(t);
        m.Eccentricity += pull.E;
        m.Inclination += pull.I;
        m.Node %= Math.Tau;
        if (m.Inclination >= LyddaneBelow)
        {
            (double sin, double cos) = Math.SinCos(m.Inclination);
            double node = pull.H / sin;
            m.ArgumentOfPerigee += pull.Gh - (cos * node);
            m.Node += node;
            m.MeanAnomaly += pull.M;
        }
        else
        {
            ApplyLyddane(pull, ref m);
        }

        if (m.Inclination < 0.0)
        {
            m.Inclination = -m.Inclination;
            m.Node += Math.PI;
            m.ArgumentOfPerigee -= Math.PI;
        }

        return m.Eccentricity is >= 0.0 and <= 1.0 ? PropagationStatus.Good : PropagationStatus.PerturbedEccentricityOutOfRange;
    }

    /// <summary>
    /// Lyddane's form for small inclinations: the node is replaced by (sin i sin Ω, sin i cos Ω). The published correction
    /// takes the new node with all four quadrants and on the turn nearest to the old one.
    /// </summary>
    private static void ApplyLyddane(in BodyPull pull, ref MeanElements m)
    {
        (double sinI, double cosI) = Math.SinCos(m.Inclination);
        (double sinNode, double cosNode) = Math.SinCos(m.Node);
        double alpha = (sinI * sinNode) + (pull.H * cosNode) + (pull.I * cosI * sinNode);
        double beta = (sinI * cosNode) - (pull.H * sinNode) + (pull.I * cosI * cosNode);
        double longitude = m.MeanAnomaly + m.ArgumentOfPerigee + (cosI * m.Node) + pull.M + pull.Gh - (pull.I * m.Node * sinI);
        double node = Math.Atan2(alpha, beta);
        node += Math.Tau * Math.Round((m.Node - node) / Math.Tau);
        m.Node = node;
        m.MeanAnomaly += pull.M;
        m.ArgumentOfPerigee = longitude - m.MeanAnomaly - (cosI * node);
    }
}
