using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>What the way from the satellite costs: spreading and the clear atmosphere.</summary>
public static class PathLoss
{
    /// <summary>Attenuation of the clear atmosphere at the zenith near 1.7 GHz: 0.0065 dB/km of dry air over about 6 km (ITU-R P.676; figure from memory).</summary>
    public static readonly Decibels ZenithAttenuation = new(0.038);

    /// <summary>Below this elevation the flat-layer formula of the atmosphere is held: it would grow without limit, the real one does not.</summary>
    private static readonly Angle FlatLayerLimit = Angle.FromDegrees(2);

    /// <summary>Free-space loss between isotropic antennas, (4 π d f / c)².</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="distanceMetres">Distance, metres, positive.</param>
    /// <remarks>Exact constant; ITU-R P.525-5 prints the same with 32.4 in place of 32.4478 for MHz and km, 0.048 dB less.</remarks>
    public static Decibels FreeSpace(Frequency frequency, double distanceMetres) =>
        new(20.0 * Math.Log10(4.0 * Math.PI * distanceMetres / frequency.WavelengthMetres));

    /// <summary>Free-space loss with the rounded constant of ITU-R P.525-5: 32.4 + 20 log f(MHz) + 20 log d(km).</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="distanceMetres">Distance, metres, positive.</param>
    public static Decibels FreeSpaceRounded(Frequency frequency, double distanceMetres) =>
        new(32.4 + (20.0 * Math.Log10(frequency.Megahertz)) + (20.0 * Math.Log10(distanceMetres / 1e3)));

    /// <summary>Attenuation of the clear atmosphere: the zenith value over sin(elevation), held below 2°.</summary>
    /// <param name="elevation">Above the horizon.</param>
    public static Decibels Atmosphere(Angle elevation) => new(ZenithAttenuation.Value / HeldSine(elevation));

    /// <summary>Distance to a satellite on a circular orbit over a round earth.</summary>
    /// <param name="elevation">Above the horizon.</param>
    /// <param name="heightMetres">Height of the orbit, metres.</param>
    /// <param name="earthRadiusMetres">Radius of the earth, metres; 6 371 000 is the mean radius.</param>
    /// <returns>Metres.</returns>
    public static double SlantRangeMetres(Angle elevation, double heightMetres, double earthRadiusMetres = 6371e3)
    {
        double drop = earthRadiusMetres * elevation.Sin();
        return Math.Sqrt((drop * drop) + (heightMetres * ((2.0 * earthRadiusMetres) + heightMetres))) - drop;
    }

    private static double HeldSine(Angle elevation) => Math.Max(elevation.Sin(), FlatLayerLimit.Sin());
}
