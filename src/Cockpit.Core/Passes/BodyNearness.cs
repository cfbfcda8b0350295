using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Passes;

/// <summary>How near the sun or the moon comes to a satellite on the sky.</summary>
/// <param name="Separation">Smallest angle between them during the pass.</param>
/// <param name="Utc">When, UTC.</param>
public readonly record struct BodyNearness(Angle Separation, DateTimeOffset Utc);

/// <summary>Sun or moon during a pass: two places, and what lies between them.</summary>
/// <remarks>
/// Between the ends the direction is interpolated; over a pass of fifteen minutes the error is below 0.02°, over an hour 0.3°.
/// </remarks>
internal sealed class BodyDuringPass
{
    private const int CoarseStep = 8;
    private const double BodyDown = -2.0;

    private readonly DateTimeOffset _from;
    private readonly TimeSpan _span;
    private readonly EcefPosition _first;
    private readonly EcefPosition _last;

    public BodyDuringPass(SkyBody body, Pass pass)
    {
        _from = pass.Aos.Utc;
        _span = pass.Duration;
        _first = ApparentPlace.Of(body, JulianDate.FromUtc(pass.Aos.Utc)).EarthFixed;
        _last = ApparentPlace.Of(body, JulianDate.FromUtc(pass.Los.Utc)).EarthFixed;
    }

    /// <summary>Earth-fixed position at a moment of the pass, km.</summary>
    public EcefPosition At(DateTimeOffset utc)
    {
        double s = _span > TimeSpan.Zero ? (utc - _from) / _span : 0.0;
        double Between(double a, double b) => a + (s * (b - a));
        return new EcefPosition(Between(_first.X, _last.X), Between(_first.Y, _last.Y), Between(_first.Z, _last.Z));
    }

    /// <summary>Elevation at a place on the earth at a moment; parallax in, no refraction.</summary>
    public Angle ElevationAt(Site site, DateTimeOffset utc) => new(Seen(new StationFrame(site), utc).ElevationRadians);

    /// <summary>Closest approach to the samples of a pass; null when the body is down whenever they are near.</summary>
    /// <param name="station">Where one looks from.</param>
    /// <param name="samples">The pass, in order of time, close enough that a few tens of them pass a body smoothly.</param>
    public BodyNearness? Nearest(StationFrame station, ReadOnlySpan<PassMoment> samples)
    {
        // First far apart, then each one around the best.
        int coarse = Best(station, samples, 0, samples.Length, CoarseStep);
        return coarse < 0 ? null
            : Best(station, samples, Math.Max(0, coarse - CoarseStep), Math.Min(samples.Length, coarse + CoarseStep + 1), 1) is var at and >= 0
                ? new BodyNearness(new Angle(Math.Acos(Math.Clamp(Closeness(station, samples[at]), -1.0, 1.0))), samples[at].Utc)
                : null;
    }

    private int Best(StationFrame station, ReadOnlySpan<PassMoment> samples, int from, int to, int step)
    {
        int best = -1;
        double closest = BodyDown;
        for (int i = from; i < to; i += step)
        {
            double closeness = Closeness(station, samples[i]);
            if (closeness > closest)
            {
                (best, closest) = (i, closeness);
            }
        }

        return best;
    }

    // Cosine of the angle between body and satellite; less than any cosine while the body is down.
    private double Closeness(StationFrame station, PassMoment sample)
    {
        EnuState seen = Seen(station, sample.Utc);
        if (seen.Up <= 0.0)
        {
            return BodyDown;
        }

        Direction satellite = Direction.Of(sample.Look);
        return ((seen.East * satellite.East) + (seen.North * satellite.North) + (seen.Up * satellite.Up)) / seen.RangeKm;
    }

    private EnuState Seen(StationFrame station, DateTimeOffset utc)
    {
        EcefPosition at = At(utc);
        return station.ToEnu(new EcefState(at.X, at.Y, at.Z, 0.0, 0.0, 0.0));
    }
}
