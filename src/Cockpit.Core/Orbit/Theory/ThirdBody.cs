namespace Cockpit.Core.Orbit.Theory;

/// <summary>How the sun or the moon is seen from the orbit's plane at the epoch.</summary>
/// <param name="SinPerigee">Sine of the argument of perigee of the body's apparent orbit.</param>
/// <param name="CosPerigee">Its cosine.</param>
/// <param name="SinInclination">Sine of the inclination of that orbit to the equator.</param>
/// <param name="CosInclination">Its cosine.</param>
/// <param name="SinNode">Sine of the satellite's node counted from the body's node.</param>
/// <param name="CosNode">Its cosine.</param>
/// <param name="Strength">Perturbation coefficient C of the report, rad²/min² over the mean motion's rad/min.</param>
/// <param name="Eccentricity">Eccentricity of the body's apparent orbit.</param>
/// <param name="MeanMotion">Its mean motion, rad/min.</param>
/// <param name="MeanAnomaly">Its mean anomaly at the epoch, rad.</param>
internal readonly record struct BodyView(
    double SinPerigee, double CosPerigee, double SinInclination, double CosInclination, double SinNode, double CosNode,
    double Strength, double Eccentricity, double MeanMotion, double MeanAnomaly);

/// <summary>Changes of the elements by a body: of e, i, M, ω + Ω cos i, and Ω sin i.</summary>
internal readonly record struct BodyPull(double E, double I, double M, double Gh, double H)
{
    public static BodyPull operator +(BodyPull a, BodyPull b) => new(a.E + b.E, a.I + b.I, a.M + b.M, a.Gh + b.Gh, a.H + b.H);
}

/// <summary>Secular rates and periodic coefficients by one body, sun or moon.</summary>
/// <remarks>Spacetrack Report No. 3 (1980), section 7, with its a_i, X_i, Z_ij; C and the periodic forms as there.</remarks>
internal sealed class ThirdBody
{
    private readonly BodyPull _f2;
    private readonly BodyPull _f3;
    private readonly double _anomalySin;
    private readonly double _perigeeSin;
    private readonly BodyView _view;

    internal ThirdBody(in EpochOrbit o, in BodyView view)
    {
        _view = view;
        double e = o.Eccentricity;
        double e2 = e * e;
        (double sinPerigee, double cosPerigee) = Math.SinCos(o.ArgumentOfPerigee);

        double a1 = (view.CosPerigee * view.CosNode) + (view.SinPerigee * view.CosInclination * view.SinNode);
        double a3 = (-view.SinPerigee * view.CosNode) + (view.CosPerigee * view.CosInclination * view.SinNode);
        double a7 = (-view.CosPerigee * view.SinNode) + (view.SinPerigee * view.CosInclination * view.CosNode);
        double a8 = view.SinPerigee * view.SinInclination;
        double a9 = (view.SinPerigee * view.SinNode) + (view.CosPerigee * view.CosInclination * view.CosNode);
        double a10 = view.CosPerigee * view.SinInclination;
        double a2 = (o.CosI * a7) + (o.SinI * a8);
        double a4 = (o.CosI * a9) + (o.SinI * a10);
        double a5 = (-o.SinI * a7) + (o.CosI * a8);
        double a6 = (-o.SinI * a9) + (o.CosI * a10);

        double x1 = (a1 * cosPerigee) + (a2 * sinPerigee);
        double x2 = (a3 * cosPerigee) + (a4 * sinPerigee);
        double x3 = (-a1 * sinPerigee) + (a2 * cosPerigee);
        double x4 = (-a3 * sinPerigee) + (a4 * cosPerigee);
        double x5 = a5 * sinPerigee;
        double x6 = a6 * sinPerigee;
        double x7 = a5 * cosPerigee;
        double x8 = a6 * cosPerigee;

        double z31 = (12.0 * x1 * x1) - (3.0 * x3 * x3);
        double z32 = (24.0 * x1 * x2) - (6.0 * x3 * x4);
        double z33 = (12.0 * x2 * x2) - (3.0 * x4 * x4);
        double z1 = (2.0 * ((3.0 * ((a1 * a1) + (a2 * a2))) + (z31 * e2))) + (o.Beta2 * z31);
        double z2 = (2.0 * ((6.0 * ((a1 * a3) + (a2 * a4))) + (z32 * e2))) + (o.Beta2 * z32);
        double z3 = (2.0 * ((3.0 * ((a3 * a3) + (a4 * a4))) + (z33 * e2))) + (o.Beta2 * z33);
        double z11 = (-6.0 * a1 * a5) + (e2 * ((-24.0 * x1 * x7) - (6.0 * x3 * x5)));
        double z12 = (-6.0 * ((a1 * a6) + (a3 * a5))) + (e2 * ((-24.0 * ((x2 * x7) + (x1 * x8))) - (6.0 * ((x3 * x6) + (x4 * x5)))));
        double z13 = (-6.0 * a3 * a6) + (e2 * ((-24.0 * x2 * x8) - (6.0 * x4 * x6)));
        double z21 = (6.0 * a2 * a5) + (e2 * ((24.0 * x1 * x5) - (6.0 * x3 * x7)));
        double z22 = (6.0 * ((a4 * a5) + (a2 * a6))) + (e2 * ((24.0 * ((x2 * x5) + (x1 * x6))) - (6.0 * ((x4 * x7) + (x3 * x8)))));
        double z23 = (6.0 * a4 * a6) + (e2 * ((24.0 * x2 * x6) - (6.0 * x4 * x8)));

        // The factors common to each element, from Lagrange's planetary equations.
        double forAnomaly = view.Strength / o.MeanMotion;
        double forPlane = -0.5 * forAnomaly / o.Beta;
        double forPerigee = forAnomaly * o.Beta;
        double forShape = -15.0 * e * forPerigee;

        double h = o.Inclination is < NearlyEquatorial or > Math.PI - NearlyEquatorial ? 0.0 : -forPlane * (z21 + z23);
        Rates = new BodyPull(
            forShape * ((x1 * x3) + (x2 * x4)) * view.MeanMotion,
            forPlane * (z11 + z13) * view.MeanMotion,
            -forAnomaly * (z1 + z3 - 14.0 - (6.0 * e2)) * view.MeanMotion,
            forPerigee * (z31 + z33 - 6.0) * view.MeanMotion,
            h * view.MeanMotion);

        _f2 = new BodyPull(
            2.0 * forShape * ((x2 * x3) + (x1 * x4)), 2.0 * forPlane * z12, -2.0 * forAnomaly * z2, 2.0 * forPerigee * z32, -2.0 * forPlane * z22);
        _f3 = new BodyPull(
            2.0 * forShape * ((x2 * x4) - (x1 * x3)),
            2.0 * forPlane * (z13 - z11),
            -2.0 * forAnomaly * (z3 - z1),
            2.0 * forPerigee * (z33 - z31),
            -2.0 * forPlane * (z23 - z21));
        _anomalySin = 2.0 * forAnomaly * (21.0 + (9.0 * e2)) * view.Eccentricity;
        _perigeeSin = -18.0 * forPerigee * view.Eccentricity;
    }

    /// <summary>Three degrees: nearer to the equator the node's secular rate is left out (report, section 7).</summary>
    private const double NearlyEquatorial = 5.2359877e-2;

    /// <summary>Secular rates a minute.</summary>
    internal BodyPull Rates { get; }

    /// <summary>Periodic changes at a time, minutes since the epoch.</summary>
    internal BodyPull Periodic(double t)
    {
        double anomaly = _view.MeanAnomaly + (_view.MeanMotion * t);
        (double sin, double cos) = Math.SinCos(anomaly + (2.0 * _view.Eccentricity * Math.Sin(anomaly)));
        double f2 = (0.5 * sin * sin) - 0.25;
        double f3 = -0.5 * sin * cos;
        return new BodyPull(
            (_f2.E * f2) + (_f3.E * f3),
            (_f2.I * f2) + (_f3.I * f3),
            (_f2.M * f2) + (_f3.M * f3) + (_anomalySin * sin),
            (_f2.Gh * f2) + (_f3.Gh * f3) + (_perigeeSin * sin),
            (_f2.H * f2) + (_f3.H * f3));
    }
}
