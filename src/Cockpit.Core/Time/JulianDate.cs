namespace Cockpit.Core.Time;

/// <summary>A moment as a Julian date in two parts, so that no digit of the time of day is lost.</summary>
/// <param name="Day">Julian date of the preceding midnight (a number ending in .5) by our own methods; any finite value is accepted.</param>
/// <param name="Fraction">What is to be added to it, days.</param>
/// <remarks>
/// One double of Julian date resolves 40 µs; the pair resolves better than 0.1 ns. The time scale (UTC, UT1) is the
/// caller's; a day of UTC is counted as 86400 s, so the inside of a leap second cannot be told from the second after it.
/// </remarks>
public readonly record struct JulianDate(double Day, double Fraction)
{
    private const double JulianDateOfYearOne = 1721425.5; // 0001-01-01T00:00, the zero of DateTimeOffset's ticks
    private const double TicksPerDay = TimeSpan.TicksPerDay;

    /// <summary>2000 January 1, 12h: the epoch from which the formulas of astronomy count.</summary>
    public static JulianDate J2000 => new(2451544.5, 0.5);

    /// <summary>Makes a Julian date from an instant.</summary>
    /// <param name="utc">The instant; its offset must be zero.</param>
    /// <exception cref="ArgumentException">The offset is not zero.</exception>
    public static JulianDate FromUtc(DateTimeOffset utc)
    {
        if (utc.Offset != TimeSpan.Zero)
        {
            throw new ArgumentException($"a time in UTC (offset zero) is wanted, not offset {utc.Offset}", nameof(utc));
        }

        long days = Math.DivRem(utc.Ticks, TimeSpan.TicksPerDay, out long ticks);
        return new JulianDate(JulianDateOfYearOne + days, ticks / TicksPerDay);
    }

    /// <summary>The same moment as an instant of UTC, rounded to its tick of 100 ns.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The moment is outside the years 1 to 9999.</exception>
    public DateTimeOffset ToUtc()
    {
        double days = Day - JulianDateOfYearOne;
        double wholeDays = Math.Floor(days);
        double ticks = Math.Round(((days - wholeDays) + Fraction) * TicksPerDay);
        return new DateTimeOffset(((long)wholeDays * TimeSpan.TicksPerDay) + (long)ticks, TimeSpan.Zero);
    }

    /// <summary>Minutes from another moment to this one; both in the same time scale.</summary>
    public double MinutesSince(JulianDate other) => ((Day - other.Day) * 1440.0) + ((Fraction - other.Fraction) * 1440.0);

    /// <summary>Days from another moment to this one; both in the same time scale.</summary>
    public double DaysSince(JulianDate other) => (Day - other.Day) + (Fraction - other.Fraction);

    /// <summary>The moment so many seconds later; the fraction grows, the day stays.</summary>
    public JulianDate AddSeconds(double seconds) => this with { Fraction = Fraction + (seconds / 86400.0) };

    /// <summary>The moment so many minutes later; the fraction grows, the day stays.</summary>
    public JulianDate AddMinutes(double minutes) => this with { Fraction = Fraction + (minutes / 1440.0) };
}
