using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Core.Orbit;

/// <summary>One element set made ready for propagation by SGP4: set up once, asked for any number of instants.</summary>
/// <remarks>
/// Immutable, so any number of threads may ask at once; asking allocates nothing, and no answer depends on an earlier one.
/// Written from the equations of F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), with the corrections of D. Vallado,
/// P. Crawford, R. Hujsak, T. Kelso, Revisiting Spacetrack Report #3, AIAA 2006-6753 (the improved mode), constants WGS-72.
/// </remarks>
public sealed class Sgp4
{
    private const double LeastEccentricity = 1e-6;
    private readonly EpochOrbit _orbit;
    private readonly Secular _secular;
    private readonly InclinationTerms _inclination;
    private readonly DeepSpace? _deep;

    /// <summary>Sets up the propagation of one element set.</summary>
    /// <exception cref="ArgumentException">The elements are refused; ask <see cref="Validate"/> first.</exception>
    public Sgp4(ElementSet elements)
    {
        ArgumentNullException.ThrowIfNull(elements);
        if (Validate(elements) is { } error)
        {
            throw new ArgumentException(error, nameof(elements));
        }

        Elements = elements;
        _orbit = new EpochOrbit(new EpochElements(
            elements.MeanMotionRevPerDay,
            elements.Eccentricity,
            elements.Inclination.Radians,
            elements.RightAscension.Radians,
            elements.ArgumentOfPerigee.Radians,
            elements.MeanAnomaly.Radians,
            elements.BStar));
        _secular = new Secular(_orbit);
        _inclination = new InclinationTerms(_orbit.SinI, _orbit.CosI);
        _deep = _orbit.IsDeepSpace ? new DeepSpace(_orbit, _secular, elements.Epoch) : null;
    }

    /// <summary>The elements behind the propagation.</summary>
    public ElementSet Elements { get; }

    /// <summary>Furthest time from the epoch, minutes: some nineteen thousand years.</summary>
    public const double MostMinutes = 1e10;

    /// <summary>Why an element set cannot be propagated, one sentence; null when it can.</summary>
    public static string? Validate(ElementSet elements)
    {
        ArgumentNullException.ThrowIfNull(elements);
        return elements.Validate() is { } error ? $"{elements.Name}: {error.Message}" : null;
    }

    /// <summary>The state at a time counted from the epoch of the elements.</summary>
    /// <param name="minutesSinceEpoch">Minutes, negative before the epoch, within <see cref="MostMinutes"/>.</param>
    /// <param name="state">Position and velocity, TEME, km and km/s; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is not a number, or further away than <see cref="MostMinutes"/>.</exception>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    public PropagationStatus Propagate(double minutesSinceEpoch, out TemeState state)
    {
        if (!(Math.Abs(minutesSinceEpoch) <= MostMinutes))
        {
            throw new ArgumentOutOfRangeException(nameof(minutesSinceEpoch), minutesSinceEpoch, "minutes since the epoch must be a number within 1e10");
        }

        state = default;
        if (_deep is not null)
        {
            return PropagateDeep(_deep, minutesSinceEpoch, out state);
        }

        PropagationStatus status = NearEarthAt(minutesSinceEpoch, out MeanElements mean);
        return status == PropagationStatus.Good ? Periodics.Apply(mean, _inclination, out state) : status;
    }

    /// <summary>The state at an instant.</summary>
    /// <param name="utc">The instant, UTC.</param>
    /// <param name="state">Position and velocity, TEME, km and km/s; zeros when the status is not good.</param>
    /// <returns>Good, or the published error code.</returns>
    public PropagationStatus Propagate(DateTimeOffset utc, out TemeState state) =>
        Propagate(Elements.MinutesSinceEpoch(utc), out state);

    /// <summary>The states at many times counted from the epoch of the elements, four at once where the machine can.</summary>
    /// <param name="minutesSinceEpoch">Minutes, in any order, each within <see cref="MostMinutes"/>.</param>
    /// <param name="states">As many states, TEME, km and km/s; zeros where the status is not good.</param>
    /// <param name="statuses">As many codes: good, or the published error code.</param>
    /// <remarks>Agrees with the single form within 1e-9 km for a day from the epoch. Orbits of deep space go one by one.</remarks>
    /// <exception cref="ArgumentException">The three lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A time is not a number, or further away than <see cref="MostMinutes"/>.</exception>
    public void Propagate(ReadOnlySpan<double> minutesSinceEpoch, Span<TemeState> states, Span<PropagationStatus> statuses)
    {
        if (states.Length != minutesSinceEpoch.Length || statuses.Length != minutesSinceEpoch.Length)
        {
            throw new ArgumentException($"{minutesSinceEpoch.Length} times need as many states and codes, not {states.Length} and {statuses.Length}", nameof(states));
        }

        bool lanes = _deep is null && Vector256.IsHardwareAccelerated;
        int k = 0;
        while (k < minutesSinceEpoch.Length)
        {
            ReadOnlySpan<double> rest = minutesSinceEpoch[k..];
            if (lanes && rest.Length >= NearEarthLanes.Count
                && Vector256.LessThanOrEqualAll(Vector256.Abs(Vector256.Create(rest)), Vector256.Create(MostMinutes))
                && NearEarthLanes.TryPropagate(_orbit, _secular, _inclination, Vector256.Create(rest), states[k..]))
            {
                statuses.Slice(k, NearEarthLanes.Count).Clear();
                k += NearEarthLanes.Count;
                continue;
            }

            int end = Math.Min(k + NearEarthLanes.Count, minutesSinceEpoch.Length);
            for (; k < end; k++)
            {
                statuses[k] = Propagate(minutesSinceEpoch[k], out states[k]);
            }
        }
    }

    /// <summary>Secular gravity and drag (report, section 6, "secular effects of atmospheric drag and gravitation").</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private PropagationStatus NearEarthAt(double t, out MeanElements mean)
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
            Eccentricity = Math.Max(e, LeastEccentricity),
            Inclination = _orbit.Inclination,
            Node = _orbit.Node + (s.NodeRate * t) + (s.NodeDrag * t2),
            ArgumentOfPerigee = perigee,
            MeanAnomaly = anomaly + (_orbit.MeanMotion * advance),
        };
        return MeanEccentricityStatus(e);
    }

    /// <summary>Secular gravity, sun, moon, resonance, then drag, then the periodics of sun and moon (report, section 7).</summary>
    private PropagationStatus PropagateDeep(DeepSpace deep, double t, out TemeState state)
    {
        state = default;
        ref readonly Secular s = ref _secular;
        var m = new MeanElements
        {
            MeanMotion = _orbit.MeanMotion,
            Eccentricity = _orbit.Eccentricity,
            Inclination = _orbit.Inclination,
            Node = _orbit.Node + (t * (s.NodeRate + (t * s.NodeDrag))),
            ArgumentOfPerigee = _orbit.ArgumentOfPerigee + (s.PerigeeRate * t),
            MeanAnomaly = _orbit.MeanAnomaly + (s.MeanAnomalyRate * t),
        };
        deep.ApplySecular(t, ref m);
        if (!(m.MeanMotion > 0.0))
        {
            return PropagationStatus.MeanMotionNotPositive;
        }

        double shrink = 1.0 - (s.C1 * t);
        m.SemiMajorAxis = Math.Pow(Wgs72.Ke / m.MeanMotion, 2.0 / 3.0) * shrink * shrink;
        m.MeanMotion = Wgs72.Ke / (m.SemiMajorAxis * Math.Sqrt(m.SemiMajorAxis));
        m.Eccentricity -= s.BC4 * t;
        m.MeanAnomaly += _orbit.MeanMotion * s.T2 * t * t;
        PropagationStatus status = MeanEccentricityStatus(m.Eccentricity);
        m.Eccentricity = Math.Max(m.Eccentricity, LeastEccentricity);
        status = status == PropagationStatus.Good ? deep.ApplyPeriodic(t, ref m) : status;
        if (status != PropagationStatus.Good)
        {
            return status;
        }

        (double sinI, double cosI) = Math.SinCos(m.Inclination);
        return Periodics.Apply(m, new InclinationTerms(sinI, cosI), out state);
    }

    /// <summary>AIAA 2006-6753: e below -0.001 or from 1 on is an error; what is between keeps away from zero.</summary>
    private static PropagationStatus MeanEccentricityStatus(double e) =>
        e is < 1.0 and >= -0.001 ? PropagationStatus.Good : PropagationStatus.MeanEccentricityOutOfRange;
}
