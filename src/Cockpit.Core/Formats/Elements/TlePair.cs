using System.Globalization;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Reads the two lines of one TLE into an element set.</summary>
/// <remarks>Columns and meaning: F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), section 2.</remarks>
internal static class TlePair
{
    /// <summary>Reads a pair; mistakes go to the gathering, and so does the set when there is none.</summary>
    internal static void Read(NumberedLine? name, NumberedLine first, NumberedLine second, ElementReading how, ElementGathering into)
    {
        TleFields one = TleLine.Open(first.Text, how);
        TleFields two = TleLine.Open(second.Text, how);
        ElementSet set = Read(name, ref one, ref two);
        if (one.Message is null && two.Message is null && set.Validate() is { } error)
        {
            int column = ColumnOf(error.Field);
            string message = $"{error.Message}; get the element set again";
            if (error.Field is ElementField.BStar or ElementField.EphemerisType)
            {
                one.Complain(column, message);
            }
            else
            {
                two.Complain(column, message);
            }
        }

        if (one.Message is { } wrongInOne)
        {
            into.Complain(first.Number, first.Indent + one.Column, wrongInOne);
        }

        if (two.Message is { } wrongInTwo)
        {
            into.Complain(second.Number, second.Indent + two.Column, wrongInTwo);
        }

        if (one.Message is null && two.Message is null)
        {
            into.Add(set);
        }
    }

    private static ElementSet Read(NumberedLine? name, ref TleFields one, ref TleFields two)
    {
        one.Blank(2, 9, 18, 33, 44, 53, 62, 64);
        two.Blank(2, 8, 17, 26, 34, 43, 52);
        int catalogNumber = one.CatalogNumber(3);
        int again = two.CatalogNumber(3);
        if (one.Message is null && catalogNumber != again)
        {
            two.Complain(3, string.Create(CultureInfo.InvariantCulture, $"line 2 carries catalogue number {again}, line 1 carries {catalogNumber}; two element sets were mixed"));
        }

        char classification = one.Character(8);
        return new ElementSet
        {
            Name = name?.Text ?? catalogNumber.ToString("00000", CultureInfo.InvariantCulture),
            CatalogNumber = catalogNumber,
            Classification = classification == ' ' ? 'U' : classification,
            InternationalDesignator = Designator.FromTle(one.Text(10, 17)),
            Epoch = ReadEpoch(ref one),
            MeanMotionDotRevPerDay2 = one.Number(34, 43, "first derivative of the mean motion"),
            MeanMotionDdotRevPerDay3 = one.Exponential(45, 52, "second derivative of the mean motion"),
            BStar = one.Exponential(54, 61, "drag term B*"),
            EphemerisType = one.Whole(63, 63, "ephemeris type"),
            ElementSetNumber = one.Whole(65, 68, "element set number"),
            Inclination = Angle.FromDegrees(two.Number(9, 16, "inclination")),
            RightAscension = Angle.FromDegrees(two.Number(18, 25, "right ascension of the node")),
            Eccentricity = two.Fraction(27, 33, "eccentricity"),
            ArgumentOfPerigee = Angle.FromDegrees(two.Number(35, 42, "argument of perigee")),
            MeanAnomaly = Angle.FromDegrees(two.Number(44, 51, "mean anomaly")),
            MeanMotionRevPerDay = two.Number(53, 63, "mean motion"),
            RevolutionNumber = two.Whole(64, 68, "revolution number"),
        };
    }

    /// <summary>Two digits of the year (57 and above are 1957 on), day of the year, eight digits of the day.</summary>
    private static JulianDate ReadEpoch(ref TleFields one)
    {
        int twoDigits = one.Whole(19, 20, "epoch year", mayBeBlank: false);
        int year = twoDigits < 57 ? 2000 + twoDigits : 1900 + twoDigits;
        int dayOfYear = one.Whole(21, 23, "epoch day", mayBeBlank: false);
        int days = DateTime.IsLeapYear(year) ? 366 : 365;
        if (dayOfYear < 1 || dayOfYear > days)
        {
            one.Complain(21, string.Create(CultureInfo.InvariantCulture, $"epoch day of the year is {dayOfYear}, expected 1 to {days}"));
        }

        one.Point(24, "epoch day");
        double fraction = one.Fraction(25, 32, "epoch day");
        JulianDate start = JulianDate.FromUtc(new DateTimeOffset(year, 1, 1, 0, 0, 0, TimeSpan.Zero));
        return new JulianDate(start.Day + dayOfYear - 1, fraction);
    }

    private static int ColumnOf(ElementField field) => field switch
    {
        ElementField.Inclination => 9,
        ElementField.RightAscension => 18,
        ElementField.Eccentricity => 27,
        ElementField.ArgumentOfPerigee => 35,
        ElementField.MeanAnomaly => 44,
        ElementField.MeanMotion => 53,
        ElementField.BStar => 54,
        ElementField.EphemerisType => 63,
        _ => 3,
    };
}
