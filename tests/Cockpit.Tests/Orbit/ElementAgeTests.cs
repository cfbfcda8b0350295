using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Orbit;

public sealed class ElementAgeTests
{
    private static readonly DateTimeOffset Epoch = new(2026, 11, 24, 6, 0, 0, TimeSpan.Zero);

    private static ElementSet Elements(DateTimeOffset epoch, int number = 99101, string name = "PETREL 2") => new()
    {
        Name = name,
        CatalogNumber = number,
        Epoch = JulianDate.FromUtc(epoch),
        MeanMotionRevPerDay = 14.2,
        Inclination = Angle.FromDegrees(98.6),
        RightAscension = Angle.Zero,
        Eccentricity = 0.001,
        ArgumentOfPerigee = Angle.Zero,
        MeanAnomaly = Angle.Zero,
    };

    [Fact]
    public void Two_days_make_two_to_six_kilometres()
    {
        var age = ElementAge.At(Elements(Epoch), Epoch.AddDays(2));
        Assert.Equal(2.0, age.LowKm, 1e-6);
        Assert.Equal(6.0, age.HighKm, 1e-6);

        // 14.2 revolutions a day: a = 7200 km by Kepler's third law, 7.44 km/s.
        Assert.Equal(7.44, age.SpeedKmPerSecond, 0.01);
        Assert.Equal(6.0 / 7.44, age.HighSeconds, 0.002);
        Assert.Equal(0.41, age.AngleAt(840.0).High.Degrees, 0.01);
        Assert.Equal("elements 2.0 d old: usually 2.0 to 6.0 km along the track, 0.3 to 0.8 s, 0.1 to 0.4 degrees at culmination", age.Sentence(840.0));
    }

    [Theory]
    [InlineData(5, "elements 5 h old")]
    [InlineData(80, "elements 3.3 d old")]
    [InlineData(-60, "elements from 2.5 d later")]
    public void The_age_is_told_in_few_words(int hours, string words) =>
        Assert.Equal(words, ElementAge.At(Elements(Epoch), Epoch.AddHours(hours)).Words());

    [Fact]
    public void Of_doubles_the_newest_stays_in_the_place_of_the_first()
    {
        ElementSet old = Elements(Epoch);
        ElementSet other = Elements(Epoch, 99102, "PETREL 3");
        ElementSet newest = Elements(Epoch.AddHours(9));
        ElementSet middle = Elements(Epoch.AddHours(3));
        Assert.Equal<ElementSet>([newest, other], NewestElements.Of([old, other, newest, middle]));
    }

    [Fact]
    public void Without_catalogue_numbers_names_tell_satellites_apart()
    {
        ElementSet one = Elements(Epoch, 0, "PETREL 2");
        ElementSet two = Elements(Epoch, 0, "PETREL 3");
        ElementSet corrected = one with { BStar = 1e-4 };
        Assert.Equal<ElementSet>([corrected, two], NewestElements.Of([one, two, corrected]));
    }
}
