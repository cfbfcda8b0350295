namespace Cockpit.Core.Orbit.Theory;

/// <summary>Where sun and moon stand for the theory at the epoch.</summary>
/// <remarks>Constants and expressions: Spacetrack Report No. 3 (1980), section 7, as printed; AIAA 2006-6753 keeps them.</remarks>
internal static class SunAndMoon
{
    private const double SunEccentricity = 0.01675;
    private const double MoonEccentricity = 0.05490;
    private const double SunMeanMotion = 1.19459e-5;
    private const double MoonMeanMotion = 1.5835218e-4;
    private const double SunStrength = 2.9864797e-6;
    private const double MoonStrength = 4.7968065e-7;
    private const double SinObliquity = 0.39785416;
    private const double CosObliquity = 0.91744867;

    /// <summary>The sun.</summary>
    /// <param name="o">The orbit.</param>
    /// <param name="days">Days since 1900 January 0.5.</param>
    internal static ThirdBody Sun(in EpochOrbit o, double days)
    {
        (double sinNode, double cosNode) = Math.SinCos(o.Node);
        return new ThirdBody(o, new BodyView(
            SinPerigee: -0.98088458,
            CosPerigee: 0.1945905,
            SinObliquity,
            CosObliquity,
            sinNode,
            cosNode,
            SunStrength,
            SunEccentricity,
            SunMeanMotion,
            (6.2565837 + (0.017201977 * days)) % Math.Tau));
    }

    /// <summary>The moon: its plane is referred from the ecliptic to the equator first.</summary>
    /// <param name="o">The orbit.</param>
    /// <param name="days">Days since 1900 January 0.5.</param>
    internal static ThirdBody Moon(in EpochOrbit o, double days)
    {
        double eclipticNode = (4.5236020 - (9.2422029e-4 * days)) % Math.Tau;
        (double sinEcliptic, double cosEcliptic) = Math.SinCos(eclipticNode);
        double cosI = 0.91375164 - (0.03568096 * cosEcliptic);
        double sinI = Math.Sqrt(1.0 - (cosI * cosI));
        double sinMoonNode = 0.089683511 * sinEcliptic / sinI;
        double cosMoonNode = Math.Sqrt(1.0 - (sinMoonNode * sinMoonNode));
        double longitude = 5.8351514 + (0.0019443680 * days);
        double y = SinObliquity * sinEcliptic / sinI;
        double x = (cosMoonNode * cosEcliptic) + (CosObliquity * sinMoonNode * sinEcliptic);
        (double sinPerigee, double cosPerigee) = Math.SinCos(longitude + Math.Atan2(y, x) - eclipticNode);

        (double sinNode, double cosNode) = Math.SinCos(o.Node);
        return new ThirdBody(o, new BodyView(
            sinPerigee,
            cosPerigee,
            sinI,
            cosI,
            (sinNode * cosMoonNode) - (cosNode * sinMoonNode),
            (cosMoonNode * cosNode) + (sinMoonNode * sinNode),
            MoonStrength,
            MoonEccentricity,
            MoonMeanMotion,
            (4.7199672 + (0.22997150 * days) - longitude) % Math.Tau));
    }
}
