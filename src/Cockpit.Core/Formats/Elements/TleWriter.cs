using System.Globalization;
using Cockpit.Core.Orbit;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Writes an element set as a TLE of three lines.</summary>
/// <remarks>Columns: F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), section 2. The format rounds: 4 decimals of a degree, 8 of a day.</remarks>
public static class TleWriter
{
    /// <summary>Name, line 1 and line 2, joined by LF, without a last one; or what does not fit the columns.</summary>
    public static Parsed<string> Write(ElementSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        if (Misfit(set) is { } misfit)
        {
            return new ParseError(set.Name, 0, 0, $"{misfit}; a TLE has no room for it");
        }

        string number = TleCodes.WriteCatalogNumber(set.CatalogNumber)!;
        string one = Text($"1 {number}{set.Classification} {Designator.ToTle(set.InternationalDesignator),-8} {EpochText(set)} {Derivative(set.MeanMotionDotRevPerDay2)} {Exponential(set.MeanMotionDdotRevPerDay3)} {Exponential(set.BStar)} {set.EphemerisType} {set.ElementSetNumber,4}");
        string two = Text($"2 {number} {set.Inclination.Degrees,8:0.0000} {set.RightAscension.Degrees,8:0.0000} {EccentricityDigits(set):0000000} {set.ArgumentOfPerigee.Degrees,8:0.0000} {set.MeanAnomaly.Degrees,8:0.0000} {set.MeanMotionRevPerDay,11:0.00000000}{set.RevolutionNumber,5}");
        return string.Create(CultureInfo.InvariantCulture, $"{set.Name}\n{one}{TleCodes.Checksum(one)}\n{two}{TleCodes.Checksum(two)}");
    }

    private static string? Misfit(ElementSet set)
    {
        if (set.Validate() is { } error)
        {
            return error.Message;
        }

        int year = RoundedEpoch(set).Year;
        return TleCodes.WriteCatalogNumber(set.CatalogNumber) is null ? Text($"catalogue number {set.CatalogNumber} is above 339999")
            : year is < 1957 or > 2056 ? Text($"the epoch is in {year}, outside 1957 to 2056")
            : EccentricityDigits(set) > 9_999_999 ? Text($"eccentricity {set.Eccentricity} rounds to 1")
            : Math.Abs(set.MeanMotionDotRevPerDay2) >= 0.999_999_995 ? Text($"first derivative {set.MeanMotionDotRevPerDay2} is not below 1")
            : Math.Abs(set.BStar) >= 0.999995e9 || Math.Abs(set.MeanMotionDdotRevPerDay3) >= 0.999995e9 ? "an exponent has two digits"
            : set.MeanMotionRevPerDay > 99.99999999 ? Text($"mean motion {set.MeanMotionRevPerDay} is above 99.99999999")
            : set.ElementSetNumber is < 0 or > 9999 ? Text($"element set number {set.ElementSetNumber} has more than four digits")
            : set.RevolutionNumber is < 0 or > 99999 ? Text($"revolution number {set.RevolutionNumber} has more than five digits")
            : set.EphemerisType is < 0 or > 9 ? Text($"ephemeris type {set.EphemerisType} has more than one digit")
            : null;
    }

    private static double EccentricityDigits(ElementSet set) => Math.Round(set.Eccentricity * 1e7);

    private static string EpochText(ElementSet set)
    {
        DateTimeOffset utc = RoundedEpoch(set);
        var year = new DateTimeOffset(utc.Year, 1, 1, 0, 0, 0, TimeSpan.Zero);
        decimal day = ((decimal)(utc - year).Ticks / TimeSpan.TicksPerDay) + 1;
        return Text($"{utc.Year % 100:00}{day:000.00000000}");
    }

    /// <summary>The epoch to the format's 1e-8 day, that is 8640 ticks; a last moment of a year goes to the next.</summary>
    private static DateTimeOffset RoundedEpoch(ElementSet set)
    {
        const long step = TimeSpan.TicksPerDay / 100_000_000;
        return new DateTimeOffset((set.EpochUtc.Ticks + (step / 2)) / step * step, TimeSpan.Zero);
    }

    private static string Derivative(double value)
    {
        string digits = Text($"{Math.Abs(value):.00000000}");
        return (value < 0 ? "-" : " ") + digits;
    }

    private static string Exponential(double value)
    {
        string sign = value < 0 ? "-" : " ";
        string text = Text($"{Math.Abs(value):0.0000e+00}");
        int exponent = int.Parse(text[7..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture) + 1;
        return value == 0 || exponent < -9
            ? " 00000-0"
            : Text($"{sign}{text[0]}{text[2..6]}{(exponent > 0 ? '+' : '-')}{Math.Abs(exponent)}");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
