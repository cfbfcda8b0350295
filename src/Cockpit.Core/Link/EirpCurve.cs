using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>Radiated power of the satellite towards a station, by the elevation at which the station sees it.</summary>
/// <param name="Knots">Elevation and EIRP, rising elevations, at least one; straight between, flat outside.</param>
/// <param name="Uncertainty">How far the truth may be off, either way.</param>
public sealed record EirpCurve(ImmutableArray<EirpKnot> Knots, Decibels Uncertainty)
{
    /// <summary>
    /// A direct-broadcast transmitter near 1.7 GHz whose antenna favours the limb: 39 dBm (from memory) to 10°, 38.3 dBm at 30°, 37 dBm overhead.
    /// The shape follows a public direct-broadcast user page (2 dB more at 5° than at the zenith); the level is uncertain by 3 dB.
    /// </summary>
    public static EirpCurve Typical { get; } = new(
        [
            new(Angle.FromDegrees(10), new Dbm(39.0)),
            new(Angle.FromDegrees(30), new Dbm(38.3)),
            new(Angle.FromDegrees(90), new Dbm(37.0)),
        ],
        new Decibels(3.0));

    /// <summary>The EIRP at an elevation.</summary>
    /// <param name="elevation">Above the horizon.</param>
    public Dbm At(Angle elevation)
    {
        if (elevation <= Knots[0].Elevation)
        {
            return Knots[0].Eirp;
        }

        for (int i = 1; i < Knots.Length; i++)
        {
            (EirpKnot below, EirpKnot above) = (Knots[i - 1], Knots[i]);
            if (elevation <= above.Elevation)
            {
                double share = (elevation - below.Elevation) / (above.Elevation - below.Elevation);
                return below.Eirp + new Decibels(share * (above.Eirp - below.Eirp).Value);
            }
        }

        return Knots[^1].Eirp;
    }

    /// <summary>The same shape at another level.</summary>
    /// <param name="change">What is added everywhere.</param>
    public EirpCurve Raised(Decibels change) => this with { Knots = [.. Knots.Select(knot => knot with { Eirp = knot.Eirp + change })] };
}

/// <summary>One point of an EIRP curve.</summary>
/// <param name="Elevation">Elevation at the station.</param>
/// <param name="Eirp">Equivalent isotropically radiated power.</param>
public readonly record struct EirpKnot(Angle Elevation, Dbm Eirp);
