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
    private readonly double[] _azimuths;
    private readonly double[] _sines;
    private readonly double[] _cosines;
    private readonly double _beamWidth;

    /// <summary>Takes in the half seconds; each has a look.</summary>
    public BeamPath(ImmutableArray<ReviewBlock> blocks, Angle beamWidth)
    {
        _beamWidth = beamWidth.Radians;
        _middles = [.. blocks.Select(b => b.Start + (0.5 * ReviewBlock.Seconds))];
        _azimuths = [.. blocks.Select(b => b.Look!.Value.Azimuth.Radians)];
        _sines = [.. blocks.Select(b => b.Look!.Value.Elevation.Sin())];
        _cosines = [.. blocks.Select(b => b.Look!.Value.Elevation.Cos())];
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
        (double sine, double cosine) = Math.SinCos(elevation);
        int next = 0;
        for (int i = 0; i < _middles.Length; i++)
        {
            while (next < moves.Length && moves[next].At <= _middles[i])
            {
                azimuth += moves[next].Pan;
                elevation += moves[next].Tilt;
                (sine, cosine) = Math.SinCos(elevation);
                next++;
            }

            double along = (sine * _sines[i]) + (cosine * _cosines[i] * Math.Cos(azimuth - _azimuths[i]));
            double widths = Math.Acos(Math.Clamp(along, -1.0, 1.0)) / _beamWidth;
            losses[i] = Math.Min(LossAtWidthDb * widths * widths, LowestLossDb);
        }
    }
}
