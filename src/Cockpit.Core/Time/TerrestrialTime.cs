namespace Cockpit.Core.Time;

/// <summary>The even time of the theories of motion, against civil time.</summary>
public static class TerrestrialTime
{
    /// <summary>TT - UTC, seconds: 32.184 s of definition and the 37 leap seconds that hold since 2017-01-01.</summary>
    /// <remarks>
    /// A constant on purpose: one more leap second would move the moon by 0.5″ and the sun by 0.04″, and before 2017 it is a second or a few more off.
    /// Source: IERS Bulletin C; IAU 1991 resolution A4 for the 32.184 s.
    /// </remarks>
    public const double MinusUtcSeconds = 69.184;

    private const double DaysPerCentury = 36525.0;

    /// <summary>Julian centuries of TT since J2000.</summary>
    /// <param name="utc">The moment in UTC.</param>
    /// <param name="minusUtcSeconds">TT - UTC, seconds; the constant of today unless a published example wants another.</param>
    public static double CenturiesSinceJ2000(JulianDate utc, double minusUtcSeconds = MinusUtcSeconds) =>
        utc.AddSeconds(minusUtcSeconds).DaysSince(JulianDate.J2000) / DaysPerCentury;
}
