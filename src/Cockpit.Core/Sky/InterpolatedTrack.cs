using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>A track that is asked many times a second: another track at whole seconds, and a cubic through four of them in between.</summary>
/// <remarks>
/// Positions are interpolated in rectangular axes, so nothing happens at north or overhead; the range rate by itself. The values
/// depend on the instant alone, not on what was asked before; only the cost does, one question to the other track for each
/// second. Error against it for a satellite above 300 km: below 1e-7 degrees and 1e-6 km/s. Remembers the last 64 seconds; not
/// safe for two threads.
/// </remarks>
/// <param name="track">The other track.</param>
public sealed class InterpolatedTrack(ITrack track) : ITrack
{
    private const int Kept = 64;
    private readonly Node?[] _kept = new Node?[Kept];

    /// <summary>How often the other track was asked.</summary>
    public long Asked { get; private set; }

    /// <inheritdoc/>
    public LookAngles? At(DateTimeOffset utc)
    {
        long second = utc.UtcTicks / TimeSpan.TicksPerSecond;
        double part = (utc.UtcTicks % TimeSpan.TicksPerSecond) / (double)TimeSpan.TicksPerSecond;
        bool whole = At(second - 1, out Node a) & At(second, out Node b) & At(second + 1, out Node c) & At(second + 2, out Node d);
        return whole ? Between(a, b, c, d, part).ToLookAngles() : track.At(utc);
    }

    private bool At(long second, out Node node)
    {
        ref Node? slot = ref _kept[second % Kept];
        if (slot is not { } kept || kept.Second != second)
        {
            Asked++;
            kept = Node.Of(second, second <= DateTimeOffset.MaxValue.UtcTicks / TimeSpan.TicksPerSecond && second >= 0
                ? track.At(new DateTimeOffset(second * TimeSpan.TicksPerSecond, TimeSpan.Zero))
                : null);
            slot = kept;
        }

        node = kept;
        return kept.IsKnown;
    }

    /// <summary>Lagrange's cubic through the values at -1, 0, 1 and 2 s.</summary>
    private static Node Between(in Node a, in Node b, in Node c, in Node d, double t)
    {
        double wa = -t * (t - 1.0) * (t - 2.0) / 6.0;
        double wb = (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0;
        double wc = -t * (t + 1.0) * (t - 2.0) / 2.0;
        double wd = t * (t + 1.0) * (t - 1.0) / 6.0;
        return new Node(
            b.Second,
            true,
            (wa * a.East) + (wb * b.East) + (wc * c.East) + (wd * d.East),
            (wa * a.North) + (wb * b.North) + (wc * c.North) + (wd * d.North),
            (wa * a.Up) + (wb * b.Up) + (wc * c.Up) + (wd * d.Up),
            (wa * a.RangeRate) + (wb * b.RangeRate) + (wc * c.RangeRate) + (wd * d.RangeRate));
    }

    /// <summary>Where the target is at a whole second; km and km/s.</summary>
    private readonly record struct Node(long Second, bool IsKnown, double East, double North, double Up, double RangeRate)
    {
        public static Node Of(long second, LookAngles? look)
        {
            if (look is not { } seen)
            {
                return new Node(second, false, 0.0, 0.0, 0.0, 0.0);
            }

            (double sinAzimuth, double cosAzimuth) = Math.SinCos(seen.Azimuth.Radians);
            (double sinElevation, double cosElevation) = Math.SinCos(seen.Elevation.Radians);
            double level = seen.RangeKm * cosElevation;
            return new Node(second, true, level * sinAzimuth, level * cosAzimuth, seen.RangeKm * sinElevation, seen.RangeRateKmPerSec);
        }

        public LookAngles ToLookAngles()
        {
            double level = Math.Sqrt((East * East) + (North * North));
            return new LookAngles(
                Angle.FromRadians(Math.Atan2(East, North)).WrappedToTurn(),
                Angle.FromRadians(Math.Atan2(Up, level)),
                Math.Sqrt((level * level) + (Up * Up)),
                RangeRate);
        }
    }
}
