using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sky;

/// <summary>The sun along a pass, and where the plan comes near it. Worked out once.</summary>
public sealed class SunPath
{
    /// <summary>Nearer than this to the sun the dish heats its focus and the sun's noise is received, beam widths.</summary>
    public const double NearBeams = 1.5;

    private static readonly TimeSpan Step = TimeSpan.FromMinutes(2);
    private static readonly Angle Down = Angle.FromDegrees(-1.0);
    private readonly DateTimeOffset _from;
    private readonly ImmutableArray<LookAngles?> _places;
    private readonly (DateTimeOffset From, DateTimeOffset To, Angle Nearest)? _near;

    /// <param name="station">Where the dish stands.</param>
    /// <param name="path">The pass, sampled.</param>
    /// <param name="beamWidth">Half-power beamwidth.</param>
    public SunPath(Site station, ImmutableArray<PassMoment> path, Angle beamWidth)
    {
        BodyTrack sun = new(SkyBody.Sun, station);
        _from = path[0].Utc - Step;
        int count = (int)((path[^1].Utc - _from) / Step) + 2;
        _places = [.. Enumerable.Range(0, count).Select(i => sun.At(_from + (i * Step)))];
        foreach (PassMoment moment in path)
        {
            if (At(moment.Utc) is not { } place)
            {
                continue;
            }

            Angle apart = AimErrors.Separation(place.Azimuth, place.Elevation, moment.Look.Azimuth, moment.Look.Elevation);
            if (apart < NearBeams * beamWidth)
            {
                _near = _near is { } before
                    ? (before.From, moment.Utc, apart < before.Nearest ? apart : before.Nearest)
                    : (moment.Utc, moment.Utc, apart);
            }
        }
    }

    /// <summary>Whether the satellite comes near it at all.</summary>
    public bool IsNear => _near is not null;

    /// <summary>The sun at a moment of the session.</summary>
    /// <param name="utc">UTC.</param>
    /// <param name="skipped">The holds that are left out for it; null when none is.</param>
    public SunNow Now(DateTimeOffset utc, SkippedHolds? skipped = null) => new(At(utc), _near?.From, _near?.To, _near?.Nearest, skipped);

    /// <summary>Where it is; null while it is down.</summary>
    public SkyPlace? Place(DateTimeOffset utc) => At(utc) is { } look ? new SkyPlace(look.Azimuth, look.Elevation) : null;

    /// <summary>Where it is; null while it is down. Straight between two minutes: the sun goes a quarter of a degree a minute.</summary>
    private LookAngles? At(DateTimeOffset utc)
    {
        double at = Math.Clamp((utc - _from) / Step, 0.0, _places.Length - 1.0);
        int index = Math.Min((int)at, _places.Length - 2);
        if (_places[index] is not { } before || _places[index + 1] is not { } after)
        {
            return null;
        }

        double part = at - index;
        Angle elevation = before.Elevation + (part * (after.Elevation - before.Elevation));
        Angle azimuth = before.Azimuth + (part * (after.Azimuth - before.Azimuth).WrappedToHalfTurn());
        return elevation < Down ? null : before with { Azimuth = azimuth.WrappedToTurn(), Elevation = elevation };
    }
}
