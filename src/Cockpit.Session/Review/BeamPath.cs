using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;

namespace Cockpit.Session.Review;

/// <summary>A move of the head at a session time; seconds, radians.</summary>
internal readonly record struct HeadMove(double At, double Pan, double Tilt);

/// <summary>The satellite's way over some half seconds, made ready to ask what a dish would have lost.</summary>
internal sealed class BeamPath
{
    private const double LossAtWidthDb = 12.0; // the usual parabola of a main lobe
    private const double LowestLossDb = 20.0;

    private readonly double[] _middles;
    private readonly double[] _east;
    private readonly double[] _north;
    private readonly double[] _up;
    private readonly double _lossBySquare;

    /// <summary>Takes in the half seconds; each has a look.</summary>
    public BeamPath(ImmutableArray<ReviewBlock> blocks, Angle beamWidth)
    {
        _lossBySquare = LossAtWidthDb / (beamWidth.Radians * beamWidth.Radians);
        _middles = [.. blocks.Select(b => b.Start + (0.5 * ReviewBlock.Seconds))];
        _east = [.. blocks.Select(b => b.Look!.Value.Elevation.Cos() * b.Look!.Value.Azimuth.Sin())];
        _north = [.. blocks.Select(b => b.Look!.Value.Elevation.Cos() * b.Look!.Value.Azimuth.Cos())];
        _up = [.. blocks.Select(b => b.Look!.Value.Elevation.Sin())];
    }

    /// <summary>Half seconds.</summary>
    public int Length => _middles.Length;

    /// <summary>Middle of a half second, session time, seconds.</summary>
    public double MiddleOf(int block) => _middles[block];

    /// <summary>Loss by pointing in each half second, dB.</summary>
    /// <param name="start">Direction of the dish at the first.</param>
    /// <param name="moves">In order of time.</param>
    /// <param name="right">How far the dish really was to the right of that direction, radians on the sky.</param>
    /// <param name="up">How far above it, radians.</param>
    /// <param name="losses">One a half second.</param>
    public void Losses(Pointing start, ReadOnlySpan<HeadMove> moves, double right, double up, Span<double> losses)
    {
        double elevation = start.Elevation.Radians + up;
        double azimuth = start.Azimuth.Radians + (right / Math.Max(start.Elevation.Cos(), 0.05));
        (double east, double north, double high) = Axis(azimuth, elevation);
        int next = 0;
        for (int i = 0; i < _middles.Length; i++)
        {
            if (next < moves.Length && moves[next].At <= _middles[i])
            {
                while (next < moves.Length && moves[next].At <= _middles[i])
                {
                    azimuth += moves[next].Pan;
                    elevation += moves[next].Tilt;
                    next++;
                }

                (east, north, high) = Axis(azimuth, elevation);
            }

            // The square of the angle by its series in 1 - cos: 2e-4 of it at 60 degrees, far beyond where the loss stops to grow.
            double near = Math.Max(0.0, 1.0 - ((east * _east[i]) + (north * _north[i]) + (high * _up[i])));
            double square = 2.0 * near * (1.0 + (near * ((1.0 / 6.0) + (near * ((2.0 / 45.0) + (near * (1.0 / 70.0)))))));
            losses[i] = Math.Min(_lossBySquare * square, LowestLossDb);
        }
    }

    private static (double East, double North, double Up) Axis(double azimuth, double elevation)
    {
        (double sinAzimuth, double cosAzimuth) = Math.SinCos(azimuth);
        (double sine, double cosine) = Math.SinCos(elevation);
        return (cosine * sinAzimuth, cosine * cosAzimuth, sine);
    }
}
