using System.Runtime.CompilerServices;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>A track between two moments, sampled coarsely and joined by smooth curves: many looks for the price of few propagations.</summary>
/// <remarks>
/// Cubic Hermite curves through the topocentric position every ten seconds. For a low orbit the error is below 1e-3 km, that is 1e-4°; a test compares.
/// </remarks>
internal sealed class SmoothTrack : ITrack
{
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(10);
    private const int MostNodes = 2000;

    private readonly DateTimeOffset _start;
    private readonly double _stepSeconds;
    private readonly (double East, double North, double Up)?[] _nodes;

    /// <summary>Samples a track from one step before to one step after a span.</summary>
    /// <param name="track">The track.</param>
    /// <param name="from">Start of the span, UTC.</param>
    /// <param name="to">End of the span, UTC.</param>
    public SmoothTrack(ITrack track, DateTimeOffset from, DateTimeOffset to)
    {
        TimeSpan step = (to - from) / MostNodes > Step ? (to - from) / MostNodes : Step;
        int count = (int)Math.Ceiling((to - from) / step) + 3;
        _stepSeconds = step.TotalSeconds;
        _start = from - step;
        _nodes = new (double, double, double)?[count];
        for (int i = 0; i < count; i++)
        {
            _nodes[i] = track.At(_start + (i * step)) is { } look ? Position(look) : null;
        }
    }

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc) => TryAt(utc, out Curved east, out Curved north, out Curved up) ? Look(east, north, up) : null;

    /// <summary>Direction and distance alone: no angles, so no trigonometry.</summary>
    /// <param name="utc">The moment, UTC.</param>
    /// <param name="direction">Where the target is.</param>
    /// <param name="rangeKm">How far, km.</param>
    /// <returns>False outside the span and where the model has no answer.</returns>
    public bool TryDirection(DateTimeOffset utc, out Direction direction, out double rangeKm)
    {
        bool there = TryAt(utc, out Curved east, out Curved north, out Curved up);
        rangeKm = Math.Sqrt((east.Value * east.Value) + (north.Value * north.Value) + (up.Value * up.Value));
        direction = there ? new Direction(east.Value / rangeKm, north.Value / rangeKm, up.Value / rangeKm) : default;
        return there;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private bool TryAt(DateTimeOffset utc, out Curved east, out Curved north, out Curved up)
    {
        double steps = (utc - _start).TotalSeconds / _stepSeconds;
        int i = (int)Math.Floor(steps);
        if (i < 1 || i + 2 >= _nodes.Length || _nodes[i] is not { } a || _nodes[i + 1] is not { } b)
        {
            east = north = up = default;
            return false;
        }

        (double East, double North, double Up) before = _nodes[i - 1] ?? Beyond(b, a);
        (double East, double North, double Up) after = _nodes[i + 2] ?? Beyond(a, b);
        double s = steps - i;
        east = Curve(before.East, a.East, b.East, after.East, s);
        north = Curve(before.North, a.North, b.North, after.North, s);
        up = Curve(before.Up, a.Up, b.Up, after.Up, s);
        return true;
    }

    // Where the model has no answer beside the span, the curve goes on straight.
    private static (double East, double North, double Up) Beyond((double East, double North, double Up) far, (double East, double North, double Up) near) =>
        ((2 * near.East) - far.East, (2 * near.North) - far.North, (2 * near.Up) - far.Up);

    private static (double East, double North, double Up) Position(LookAngles look)
    {
        double flat = look.RangeKm * look.Elevation.Cos();
        return (flat * look.Azimuth.Sin(), flat * look.Azimuth.Cos(), look.RangeKm * look.Elevation.Sin());
    }

    // Value and slope per step of the curve between a and b, with central differences as slopes at both.
    private static Curved Curve(double before, double a, double b, double after, double s)
    {
        double slopeA = 0.5 * (b - before);
        double slopeB = 0.5 * (after - a);
        double square = (3.0 * (b - a)) - (2.0 * slopeA) - slopeB;
        double cube = (2.0 * (a - b)) + slopeA + slopeB;
        return new Curved(a + (s * (slopeA + (s * (square + (s * cube))))), slopeA + (s * ((2.0 * square) + (3.0 * s * cube))));
    }

    private LookAngles Look(Curved east, Curved north, Curved up)
    {
        double flat = Math.Sqrt((east.Value * east.Value) + (north.Value * north.Value));
        double range = Math.Sqrt((flat * flat) + (up.Value * up.Value));
        double rate = ((east.Value * east.Slope) + (north.Value * north.Slope) + (up.Value * up.Slope)) / (range * _stepSeconds);
        return new LookAngles(Angle.FromRadians(Math.Atan2(east.Value, north.Value)).WrappedToTurn(), Angle.FromRadians(Math.Atan2(up.Value, flat)), range, rate);
    }

    private readonly record struct Curved(double Value, double Slope);
}
