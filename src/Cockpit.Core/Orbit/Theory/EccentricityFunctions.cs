namespace Cockpit.Core.Orbit.Theory;

/// <summary>Fitted eccentricity functions G_lpq of the half-day resonance.</summary>
/// <remarks>Polynomials in e with their ranges: Spacetrack Report No. 3 (1980), section 7, as printed.</remarks>
internal readonly struct EccentricityFunctions
{
    internal EccentricityFunctions(double e)
    {
        G201 = -0.306 - ((e - 0.64) * 0.440);
        if (e <= 0.65)
        {
            G211 = Cubic(e, 3.616, -13.2470, 16.2900, 0.0);
            G310 = Cubic(e, -19.302, 117.3900, -228.4190, 156.5910);
            G322 = Cubic(e, -18.9068, 109.7927, -214.6334, 146.5816);
            G410 = Cubic(e, -41.122, 242.6940, -471.0940, 313.9530);
            G422 = Cubic(e, -146.407, 841.8800, -1629.014, 1083.4350);
            G520 = Cubic(e, -532.114, 3017.977, -5740.032, 3708.2760);
        }
        else
        {
            G211 = Cubic(e, -72.099, 331.819, -508.738, 266.724);
            G310 = Cubic(e, -346.844, 1582.851, -2415.925, 1246.113);
            G322 = Cubic(e, -342.585, 1554.908, -2366.899, 1215.972);
            G410 = Cubic(e, -1052.797, 4758.686, -7193.992, 3651.957);
            G422 = Cubic(e, -3581.690, 16178.110, -24462.770, 12422.520);
            G520 = e > 0.715
                ? Cubic(e, -5149.66, 29936.92, -54087.36, 31324.56)
                : Cubic(e, 1464.74, -4664.75, 3763.64, 0.0);
        }

        if (e < 0.7)
        {
            G533 = Cubic(e, -919.22770, 4988.6100, -9064.7700, 5542.21);
            G521 = Cubic(e, -822.71072, 4568.6173, -8491.4146, 5337.524);
            G532 = Cubic(e, -853.66600, 4690.2500, -8624.7700, 5341.4);
        }
        else
        {
            G533 = Cubic(e, -37995.780, 161616.52, -229838.20, 109377.94);
            G521 = Cubic(e, -51752.104, 218913.95, -309468.16, 146349.42);
            G532 = Cubic(e, -40023.880, 170470.89, -242699.48, 115605.82);
        }
    }

    internal double G201 { get; }

    internal double G211 { get; }

    internal double G310 { get; }

    internal double G322 { get; }

    internal double G410 { get; }

    internal double G422 { get; }

    internal double G520 { get; }

    internal double G521 { get; }

    internal double G532 { get; }

    internal double G533 { get; }

    private static double Cubic(double e, double c0, double c1, double c2, double c3) => c0 + (e * (c1 + (e * (c2 + (e * c3)))));
}
