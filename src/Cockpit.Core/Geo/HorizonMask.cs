using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Geo;

/// <summary>What hides the sky: the lowest free elevation by azimuth, straight lines between points, round the whole horizon.</summary>
/// <remarks>Straight means that elevation grows evenly with azimuth; the line from the last point runs through north to the first.</remarks>
public sealed class HorizonMask
{
    private const double Same = 1e-12; // radians; two azimuths this close are one

    private readonly double[] _azimuths; // radians, growing, in [0, 2 pi)
    private readonly double[] _elevations; // radians

    /// <summary>Makes a mask from its points.</summary>
    /// <param name="points">True azimuth (wrapped to a turn) and elevation in [-90°, 90°); at least one, in any order, no azimuth twice.</param>
    /// <exception cref="ArgumentException">There is no point, an azimuth stands twice, or an elevation is out of range.</exception>
    public HorizonMask(IEnumerable<HorizonPoint> points)
    {
        Points = [.. points.Select(p => p with { Azimuth = p.Azimuth.WrappedToTurn() }).OrderBy(p => p.Azimuth)];
        if (Points.IsEmpty)
        {
            throw new ArgumentException("a horizon needs at least one point", nameof(points));
        }

        if (Points.Zip(Points.Skip(1)).Any(pair => (pair.Second.Azimuth - pair.First.Azimuth).Radians < Same))
        {
            throw new ArgumentException("an azimuth stands twice in the horizon", nameof(points));
        }

        if (Points.Any(p => !(p.Elevation.Degrees is >= -90.0 and < 90.0)))
        {
            throw new ArgumentException("an elevation of the horizon is outside -90 to 90 degrees", nameof(points));
        }

        _azimuths = [.. Points.Select(p => p.Azimuth.Radians)];
        _elevations = [.. Points.Select(p => p.Elevation.Radians)];
        Lowest = Angle.FromRadians(_elevations.Min());
    }

    /// <summary>The points, by growing azimuth in [0°, 360°).</summary>
    public ImmutableArray<HorizonPoint> Points { get; }

    /// <summary>The lowest elevation of the whole mask.</summary>
    public Angle Lowest { get; }

    /// <summary>Whether all azimuths have the same limit.</summary>
    public bool IsFlat => Points.All(p => p.Elevation == Points[0].Elevation);

    /// <summary>The same limit all around.</summary>
    public static HorizonMask Flat(Angle elevation) => new([new HorizonPoint(Angle.Zero, elevation)]);

    /// <summary>The limit at an azimuth, any angle.</summary>
    public Angle At(Angle azimuth)
    {
        double wrapped = azimuth.WrappedToTurn().Radians;
        return Angle.FromRadians(Along(Segment(wrapped), wrapped));
    }

    /// <summary>This mask, raised where it lies below a least elevation; exact, with new points where the lines cross it.</summary>
    public HorizonMask RaisedTo(Angle least)
    {
        var raised = new List<HorizonPoint>();
        for (int k = 0; k < _azimuths.Length; k++)
        {
            raised.Add(new HorizonPoint(Angle.FromRadians(_azimuths[k]), Angle.FromRadians(Math.Max(_elevations[k], least.Radians))));
            double slope = SlopeOf(k);
            double crossing = (least.Radians - _elevations[k]) / slope;
            if (crossing > 2 * Same && crossing < WidthOf(k) - (2 * Same))
            {
                raised.Add(new HorizonPoint(Angle.FromRadians(_azimuths[k] + crossing), least));
            }
        }

        return new HorizonMask(raised);
    }

    /// <summary>Which line of the mask covers an azimuth: the number of the point at its left end.</summary>
    internal int Segment(double azimuth)
    {
        int at = Array.BinarySearch(_azimuths, azimuth);
        int left = at >= 0 ? at : ~at - 1;
        return left >= 0 ? left : _azimuths.Length - 1;
    }

    /// <summary>Elevation of a line, extended beyond its ends, radians.</summary>
    internal double Along(int segment, double azimuth) =>
        _elevations[segment] + (SlopeOf(segment) * Math.IEEERemainder(azimuth - Middle(segment), Math.Tau)) + (SlopeOf(segment) * 0.5 * WidthOf(segment));

    /// <summary>How elevation grows with azimuth on a line.</summary>
    internal double SlopeOf(int segment) => (_elevations[(segment + 1) % _elevations.Length] - _elevations[segment]) / WidthOf(segment);

    private double Middle(int segment) => _azimuths[segment] + (0.5 * WidthOf(segment));

    private double WidthOf(int segment) => segment + 1 < _azimuths.Length
        ? _azimuths[segment + 1] - _azimuths[segment]
        : _azimuths[0] + Math.Tau - _azimuths[segment];
}

/// <summary>One point of a horizon.</summary>
/// <param name="Azimuth">True azimuth.</param>
/// <param name="Elevation">The sky is free above it.</param>
public readonly record struct HorizonPoint(Angle Azimuth, Angle Elevation);
