using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Checks;

/// <summary>How far computed states lie from given ones, for one element set.</summary>
/// <param name="Name">Case or satellite.</param>
/// <param name="States">How many states were compared, those with an error code included.</param>
/// <param name="LargestKm">Largest difference of any component of position, km.</param>
/// <param name="LargestKmPerSecond">Largest difference of any component of velocity, km/s.</param>
/// <param name="WrongCodes">Every instant whose error code differs, in words; empty when all agree.</param>
public sealed record StateComparison(
    string Name, int States, double LargestKm, double LargestKmPerSecond, IReadOnlyList<string> WrongCodes)
{
    /// <summary>Propagates one element set to every given state and keeps the largest differences.</summary>
    /// <param name="name">What to call the result.</param>
    /// <param name="sgp4">The propagation.</param>
    /// <param name="states">What is to come out.</param>
    public static StateComparison Of(string name, Sgp4 sgp4, IEnumerable<GivenState> states)
    {
        ArgumentNullException.ThrowIfNull(sgp4);
        ArgumentNullException.ThrowIfNull(states);
        int count = 0;
        double km = 0.0;
        double kmPerSecond = 0.0;
        var wrong = new List<string>();
        foreach (GivenState given in states)
        {
            count++;
            PropagationStatus status = sgp4.Propagate(given.Minutes, out TemeState got);
            if (status != given.Status)
            {
                wrong.Add(string.Create(CultureInfo.InvariantCulture, $"{name} at {given.Minutes} min: code {(int)status}, expected {(int)given.Status}"));
            }
            else if (given.State is { } state)
            {
                km = Largest(km, got.X - state.X, got.Y - state.Y, got.Z - state.Z);
                kmPerSecond = Largest(kmPerSecond, got.Vx - state.Vx, got.Vy - state.Vy, got.Vz - state.Vz);
            }
        }

        return new StateComparison(name, count, km, kmPerSecond, wrong);
    }

    /// <inheritdoc/>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Name}: {States} states, {LargestKm:0.0e+00} km, {LargestKmPerSecond:0.0e+00} km/s{string.Concat(WrongCodes.Select(w => "; " + w))}");

    private static double Largest(double before, double x, double y, double z) =>
        Math.Max(before, Math.Max(Math.Abs(x), Math.Max(Math.Abs(y), Math.Abs(z))));
}

/// <summary>What a publication gives for one instant.</summary>
/// <param name="Minutes">Minutes since the epoch of the elements.</param>
/// <param name="Status">Error code.</param>
/// <param name="State">TEME, km and km/s; null where there is an error.</param>
public readonly record struct GivenState(double Minutes, PropagationStatus Status, TemeState? State);
