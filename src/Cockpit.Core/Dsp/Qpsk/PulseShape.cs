namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>The root raised cosine pulse.</summary>
internal static class PulseShape
{
    /// <summary>Roll-off of the services at 2.3333 and 2.8 Msym/s (from memory).</summary>
    public const double RollOff = 0.5;

    /// <summary>The pulse, of unit energy per symbol.</summary>
    /// <param name="t">Distance from its centre in symbols.</param>
    /// <returns>Its height; 1.137 in the centre.</returns>
    /// <remarks>J. Proakis, Digital Communications, section 9.2 (from memory), with its limits at 0 and 1 / (4 roll-off).</remarks>
    public static double At(double t)
    {
        const double A = RollOff;
        if (Math.Abs(t) < 1e-9)
        {
            return 1.0 - A + (4.0 * A / Math.PI);
        }

        double edge = 4.0 * A * t;
        if (Math.Abs(Math.Abs(edge) - 1.0) < 1e-6)
        {
            double quarter = Math.PI / (4.0 * A);
            return A / Math.Sqrt(2.0) * (((1.0 + (2.0 / Math.PI)) * Math.Sin(quarter)) + ((1.0 - (2.0 / Math.PI)) * Math.Cos(quarter)));
        }

        double pi = Math.PI * t;
        return (Math.Sin(pi * (1.0 - A)) + (edge * Math.Cos(pi * (1.0 + A)))) / (pi * (1.0 - (edge * edge)));
    }
}
