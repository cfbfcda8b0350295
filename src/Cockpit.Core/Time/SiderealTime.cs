using Cockpit.Core.Units;

namespace Cockpit.Core.Time;

/// <summary>How far the earth has turned under the stars.</summary>
public static class SiderealTime
{
    private const double SecondsPerDay = 86400.0;
    private const double DaysPerCentury = 36525.0;

    /// <summary>Greenwich mean sidereal time, IAU 1982: the angle from the mean equinox to the Greenwich meridian.</summary>
    /// <param name="ut1">The moment in UT1; UTC may stand in (|UT1 - UTC| &lt; 0.9 s).</param>
    /// <returns>An angle in [0°, 360°).</returns>
    /// <remarks>
    /// Error against the definition: below 1e-9° while day and fraction are kept apart; a UTC argument adds up to 13.5″
    /// (0.9 s of 15″ each). Source: S. Aoki et al., The New Definition of Universal Time, Astron. Astrophys. 105 (1982), 359;
    /// D. Vallado, Fundamentals of Astrodynamics and Applications, eq. 3-47.
    /// </remarks>
    public static Angle Greenwich(JulianDate ut1)
    {
        double days = ut1.Day - JulianDate.J2000.Day;
        double centuries = ((days - 0.5) + ut1.Fraction) / DaysPerCentury;
        double seconds = 67310.54841 + ((8640184.812866 + ((0.093104 - (6.2e-6 * centuries)) * centuries)) * centuries);

        // The formula's 876600 h a century is one turn a day of UT1. Whole days are whole turns and drop out.
        double turns = ((days - 0.5) - Math.Floor(days - 0.5)) + ut1.Fraction + (seconds / SecondsPerDay);
        return Angle.FromRadians((turns - Math.Floor(turns)) * Math.Tau).WrappedToTurn();
    }
}
