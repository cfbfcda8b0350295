using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Formats;

public sealed class TleWriterTests
{
    /// <summary>Element sets whose every field is exact in the columns of a TLE.</summary>
    private static readonly Gen<ElementSet> Sets =
        from number in Gen.Int[0, 339_999]
        from launch in Gen.Int[1957, 2056]
        from day in Gen.Int[0, 36_000]
        from fraction in Gen.Int[0, 99_999_999]
        from angles in Gen.Int[0, 3_599_999].Array[3]
        from inclination in Gen.Int[0, 1_800_000]
        from eccentricity in Gen.Int[0, 9_999_999]
        from motion in Gen.Long[1_000, 1_799_999_999]
        from dot in Gen.Int[-99_999_999, 99_999_999]
        from mantissa in Gen.Int[10_000, 99_999]
        from power in Gen.Int[-9, 0]
        from sign in Gen.Bool
        from counters in Gen.Int[0, 9999].Array[2]
        select new ElementSet
        {
            Name = $"INVENTED {number}",
            CatalogNumber = number,
            InternationalDesignator = $"{launch}-{number % 1000:000}A",
            Epoch = new JulianDate(2436112.5 + day, fraction / 1e8),
            MeanMotionRevPerDay = motion / 1e8,
            MeanMotionDotRevPerDay2 = dot / 1e8,
            BStar = double.Parse($"{(sign ? "-" : "")}0.{mantissa}e{power}", System.Globalization.CultureInfo.InvariantCulture),
            Inclination = Angle.FromDegrees(inclination / 1e4),
            RightAscension = Angle.FromDegrees(angles[0] / 1e4),
            Eccentricity = eccentricity / 1e7,
            ArgumentOfPerigee = Angle.FromDegrees(angles[1] / 1e4),
            MeanAnomaly = Angle.FromDegrees(angles[2] / 1e4),
            ElementSetNumber = counters[0],
            RevolutionNumber = counters[1],
        };

    private static readonly ElementSet Usual = new()
    {
        Name = "MARLSNIPE 1",
        CatalogNumber = 99101,
        Epoch = new JulianDate(2461368.5, 0.25),
        MeanMotionRevPerDay = 14.2,
        Inclination = Angle.FromDegrees(98.6),
        RightAscension = Angle.Zero,
        Eccentricity = 0.001,
        ArgumentOfPerigee = Angle.Zero,
        MeanAnomaly = Angle.Zero,
    };

    [Fact]
    public void What_is_written_is_read_as_the_same() => Sets.Sample(set =>
    {
        Assert.True(TleWriter.Write(set).Try(out string? text, out ParseError? error), error?.ToString());
        ElementFile file = ElementSets.Read("written", new StringReader(text));
        Assert.Empty(file.Errors);
        Assert.Equal(set, Assert.Single(file.Sets));
    });

    [Fact]
    public void What_is_read_is_written_as_the_same()
    {
        const string text = "MARLSNIPE 1\n1 C3456U 26114B   26316.68763039 -.00000212  12345-6 -15551-3 0  2332\n2 C3456  50.9368   7.0043 0016145 270.5078 116.8619 13.66926456 67857";
        ElementSet set = Assert.Single(ElementSets.Read("x", new StringReader(text), new ElementReading(true)).Sets);
        Assert.True(TleWriter.Write(set).Try(out string? written, out _));
        Assert.Equal(text[..79], written[..79]);
        Assert.Equal(text[81..], written[81..]);
    }

    [Fact]
    public void The_last_moment_of_a_year_is_written_as_the_first_of_the_next()
    {
        ElementSet set = Usual with { Epoch = new JulianDate(2461405.5, 0.999999999) };
        Assert.True(TleWriter.Write(set).Try(out string? text, out _));
        Assert.Contains(" 27001.00000000 ", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_number_too_large_for_the_columns_is_refused()
    {
        ElementSet set = Usual with { CatalogNumber = 340_000 };
        Assert.False(TleWriter.Write(set).Try(out _, out ParseError? error));
        Assert.Equal("catalogue number 340000 is above 339999; a TLE has no room for it", error.Message);
    }
}
