namespace Cockpit.Core.Magnetic;

/// <summary>Schmidt semi-normalised associated Legendre functions of sin(latitude), their slopes, and their quotients by cos(latitude).</summary>
/// <remarks>
/// The quotient has its own recursion, so that nothing is divided by zero at the poles. Source: R. Langel in J. Jacobs (ed.), Geomagnetism, vol. 1, 1987; the
/// recursions as in the technical report of the World Magnetic Model.
/// </remarks>
internal sealed class LegendreFunctions
{
    private readonly double[,] _value;
    private readonly double[,] _slope;
    private readonly double[,] _overCosine;

    /// <summary>Evaluates all functions to a degree.</summary>
    /// <param name="latitude">Geocentric latitude, radians.</param>
    /// <param name="degree">Largest degree.</param>
    public LegendreFunctions(double latitude, int degree)
    {
        _value = new double[degree + 1, degree + 1];
        _slope = new double[degree + 1, degree + 1];
        _overCosine = new double[degree + 1, degree + 1];
        (double sine, double cosine) = Math.SinCos(latitude);
        _value[0, 0] = 1.0;
        for (int n = 1; n <= degree; n++)
        {
            for (int m = 0; m <= n; m++)
            {
                if (m == n)
                {
                    Diagonal(n, sine, cosine);
                }
                else
                {
                    Column(n, m, sine, cosine);
                }
            }
        }
    }

    /// <summary>One function, its slope against latitude, and its quotient by cos(latitude) (0 for m = 0, where it is not needed).</summary>
    public (double Value, double Slope, double OverCosine) At(int n, int m) => (_value[n, m], _slope[n, m], _overCosine[n, m]);

    private void Diagonal(int n, double sine, double cosine)
    {
        double k = n == 1 ? 1.0 : Math.Sqrt((2.0 * n - 1.0) / (2.0 * n));
        _value[n, n] = k * cosine * _value[n - 1, n - 1];
        _slope[n, n] = k * ((cosine * _slope[n - 1, n - 1]) - (sine * _value[n - 1, n - 1]));
        _overCosine[n, n] = k * _value[n - 1, n - 1];
    }

    private void Column(int n, int m, double sine, double cosine)
    {
        double root = Math.Sqrt((n * n) - (m * m));
        double a = ((2.0 * n) - 1.0) / root;
        double b = n - 2 < m ? 0.0 : Math.Sqrt(((n - 1.0) * (n - 1.0)) - (m * m)) / root;
        int before = Math.Max(n - 2, 0);
        _value[n, m] = (a * sine * _value[n - 1, m]) - (b * _value[before, m]);
        _slope[n, m] = (a * ((cosine * _value[n - 1, m]) + (sine * _slope[n - 1, m]))) - (b * _slope[before, m]);
        _overCosine[n, m] = (a * sine * _overCosine[n - 1, m]) - (b * _overCosine[before, m]);
    }
}
