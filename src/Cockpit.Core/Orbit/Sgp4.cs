using Cockpit.Core.Geo;

namespace Cockpit.Core.Orbit;

/// <summary>One element set made ready for propagation by SGP4: set up once, asked for any number of instants.</summary>
/// <remarks>
/// Immutable, so any number of threads may ask at once; asking allocates nothing, and no answer depends on an earlier one.
/// Written from the equations of F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), with the corrections of D. Vallado,
/// P. Crawford, R. Hujsak, T. Kelso, Revisiting Spacetrack Report #3, AIAA 2006-6753 (the improved mode), constants WGS-72.
/// </remarks>
public sealed class Sgp4
{
    private readonly EpochOrbit _orbit;
    private readonly Secular _secular;
    private readonly InclinationTerms _inclination;

    /// <summary>Sets up the propagation of one element set.</summary>
    /// <exception cref="ArgumentException">The elements are refused; ask <see cref="Refusal"/> first.</exception>
    public Sgp4(ElementSet elements)
    {
        ArgumentNullException.ThrowIfNull(elements);
        if (Refusal(elements) is { } refusal)
        {
            throw new ArgumentException(refusal, nameof(elements));
        }

        Elements = elements;
        _orbit = new EpochOrbit(elements);
        _secular = new Secular(_orbit);
        _inclination = new InclinationTerms(_orbit.SinI, _orbit.CosI);
    }

    /// <summary>The elements behind the propagation.</summary>
    public ElementSet Elements { get; }

    /// <summary>Why an element set cannot be propagated, one sentence; null when it can.</summary>
    public static string? Refusal(ElementSet elements)
    {
        ArgumentNullException.ThrowIfNull(elements);
        if (elements.Fault() is { } fault)
        {
            return $"{elements.Name}: {fault}";
        }

        return new EpochOrbit(elements).IsDeepSpace
            ? string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"{elements.Name}: the period is {elements.Period.TotalMinutes:0.0} min; from 225 min on the deep-space part of the theory is needed, which this program does not have yet; choose a satellite in a lower orbit")
            : null;
    }

    /// <summary>The state at a time counted from the epoch of the elements.</summary>
    /// <param name="minutesSinceEpoch">Minutes, any finite value, negative before the epoch.</param>
    /// <param name="state">Position and velocity, TEME, km and km/s; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus Propagate(double minutesSinceEpoch, out TemeState state)
    {
        state = default;
        PropagationStatus status = MeanElementsAt(minutesSinceEpoch, out MeanElements mean);
        return status == PropagationStatus.Good ? Periodics.Apply(mean, _inclination, out state) : status;
    }

    /// <summary>The state at an instant.</summary>
    /// <param name="utc">The instant, UTC.</param>
    /// <param name="state">Position and velocity, TEME, km and km/s; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus Propagate(DateTimeOffset utc, out TemeState state) =>
        Propagate(Elements.MinutesSinceEpoch(utc), out state);

    /// <summary>Secular gravity and drag (report, section 6, "secular effects of atmospheric drag and gravitation").</summary>
    private PropagationStatus MeanElementsAt(double t, out MeanElements mean)
    {
        ref readonly Secular s = ref _secular;
        double t2 = t * t;
        double anomaly = _orbit.MeanAnomaly + (s.MeanAnomalyRate * t);
        double perigee = _orbit.ArgumentOfPerigee + (s.PerigeeRate * t);
        double shrink = 1.0 - (s.C1 * t);
        double eccentricityLoss = s.BC4 * t;
        double advance = s.T2 * t2;
        if (s.Full)
        {
            (double sin, double cos) = Math.SinCos(anomaly);
            double now = 1.0 + (s.Eta * cos);
            double shift = (s.PerigeeDrag * t) + (s.AnomalyDrag * ((now * now * now) - s.AnomalyStart));
            anomaly += shift;
            perigee -= shift;
            double t3 = t2 * t;
            shrink -= t2 * (s.D2 + (t * (s.D3 + (t * s.D4))));
            eccentricityLoss += s.BC5 * (Rotation.Turn(sin, cos, shift).Sin - s.SinAnomalyStart);
            advance += t3 * (s.T3 + (t * (s.T4 + (t * s.T5))));
        }

        double a = _orbit.SemiMajorAxis * shrink * shrink;
        double e = _orbit.Eccentricity - eccentricityLoss;
        mean = new MeanElements
        {
            SemiMajorAxis = a,
            MeanMotion = Wgs72.Ke / (a * Math.Sqrt(a)),
            Eccentricity = Math.Max(e, 1e-6),
            Inclination = _orbit.Inclination,
            Node = _orbit.Node + (s.NodeRate * t) + (s.NodeDrag * t2),
            ArgumentOfPerigee = perigee,
            MeanAnomaly = anomaly + (_orbit.MeanMotion * advance),
        };
        return e is < 1.0 and >= -0.001 ? PropagationStatus.Good : PropagationStatus.MeanEccentricityOutOfRange;
    }
}
