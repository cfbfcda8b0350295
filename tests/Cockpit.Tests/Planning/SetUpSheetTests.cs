using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Planning;
using Cockpit.Reports;

namespace Cockpit.Tests.Planning;

/// <summary>The sheet to take along.</summary>
public sealed partial class SetUpSheetTests
{
    private static readonly DateTimeOffset Morning = new(2026, 11, 26, 5, 0, 0, TimeSpan.Zero);
    private static readonly HorizonMask Trees = new([Point(0, 8), Point(90, 12), Point(180, 6), Point(270, 15)]);

    private static HorizonPoint Point(double azimuth, double elevation) => new(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation));

    private static Evening Day(params string[] names) => Evenings.Of(
        Morning, TimeSpan.FromHours(24), Trees, 0.8, [.. names.Select((name, k) => Evenings.Orbit(name, 99201 + k, 100 - (18 * k), Morning.AddHours(-5)))]);

    /// <summary>The page as XML: it is written so that only the elements without an end differ.</summary>
    private static XElement Read(string page)
    {
        Assert.StartsWith("<!DOCTYPE html>\n", page, StringComparison.Ordinal);
        return XElement.Parse(Void().Replace(page["<!DOCTYPE html>\n".Length..], "<${inside}/>"));
    }

    [GeneratedRegex("<(?<inside>(meta|input)[^>]*)>", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Void();

    [Fact]
    public void The_page_is_well_formed_and_stands_alone()
    {
        Evening evening = Day("PETREL 2", "BRACKWING 7");
        foreach (EveningPass pass in evening.Passes)
        {
            string page = SetUpSheet.Of(Evenings.Facts(evening, pass));
            XElement root = Read(page);
            Assert.Equal("html", root.Name.LocalName);
            Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("http", page, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("url(", page, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
            Assert.Equal(["The pass", "What it brings", "Sky", "Holds", "Before the rise", "Take care"], root.Descendants("h2").Select(head => head.Value).Where(head => !head.StartsWith("Set up by", StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void A_name_is_never_part_of_the_page()
    {
        Evening evening = Day("<script>throw 1</script>", "\"&'");
        string page = SetUpSheet.Of(Evenings.Facts(evening, evening.Passes[0]));
        Assert.Empty(Read(page).Descendants("script"));
    }

    [Theory]
    [InlineData(Mount.PanTilt)]
    [InlineData(Mount.Free)]
    public void The_holds_are_those_of_the_plan_and_the_turns_lead_from_one_to_the_next(Mount mount)
    {
        Evening evening = Day("PETREL 2");
        SheetFacts facts = Evenings.Facts(evening, evening.Passes[0], mount);
        string[][] rows = [.. Read(SetUpSheet.Of(facts)).Descendants("tr").Select(row => row.Elements("td").Select(cell => cell.Value).ToArray()).Where(cells => cells.Length == 5)];
        Assert.Equal(facts.Holds.Length, rows.Length);
        for (int k = 0; k < rows.Length; k++)
        {
            Hold hold = facts.Holds[k];
            Assert.Equal(Evenings.Berlin.Second(hold.FromUtc), rows[k][1]);
            Assert.Equal(hold.Azimuth.Degrees, Degrees(rows[k][2]), 0.51);
            Assert.Equal(hold.Elevation.Degrees, Degrees(rows[k][3]), 0.51);
            if (k > 0)
            {
                AimError move = AimErrors.Between(facts.Holds[k - 1].Azimuth, facts.Holds[k - 1].Elevation, hold.Azimuth, hold.Elevation);
                double right = mount == Mount.PanTilt ? move.Pan.Degrees : move.Right.Degrees;
                Assert.StartsWith(right < 0 ? "◄" : "►", rows[k][4], StringComparison.Ordinal);
                Assert.Equal(Math.Abs(right), Degrees(rows[k][4][1..].Split(' ')[0]), 0.51);
            }
        }
    }

    private static double Degrees(string text) => double.Parse(text.TrimEnd('°'), CultureInfo.InvariantCulture);

    [Fact]
    public void By_day_the_shadow_helps_and_by_night_the_pole_star()
    {
        Evening evening = Day("PETREL 2", "BRACKWING 7");
        foreach (EveningPass pass in evening.Passes)
        {
            SheetFacts facts = Evenings.Facts(evening, pass);
            string page = SetUpSheet.Of(facts);
            Bearings then = Bearings.At(Evenings.Station, pass.Rise.Utc - SheetFacts.SetUpBefore);
            Assert.Equal(then.Shadow is not null, page.Contains("Shadow of an upright stick", StringComparison.Ordinal));
            Assert.Equal(then.PolarisShows, page.Contains("Pole star: azimuth", StringComparison.Ordinal));
            Assert.Equal(then.Sun.Elevation.Degrees > -1 || facts.AtTop.Sun.Elevation.Degrees > -1, page.Contains("never look along the dish", StringComparison.Ordinal));
            if (then.Shadow is { } shadow)
            {
                Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"it points to <strong>{shadow.Degrees:0.0}°</strong>"), page, StringComparison.Ordinal);
            }
        }

        Assert.Contains(evening.Passes, pass => Bearings.At(Evenings.Station, pass.Rise.Utc).PolarisShows);
        Assert.Contains(evening.Passes, pass => Bearings.At(Evenings.Station, pass.Rise.Utc).Shadow is not null);
    }

    // Of many orbits the pass that comes nearest to the sun.
    [Fact]
    public void Holds_beside_the_sun_are_marked_and_said_to_be_left_out()
    {
        ElementSet[] sets = [.. Enumerable.Range(0, 40).Select(k => Evenings.Orbit("PETREL 2", 99201 + k, 9 * k, Morning, 9 * k))];
        Evening evening = Evenings.Of(Morning, TimeSpan.FromHours(12), null, 0.8, sets);
        EveningPass sunny = evening.Passes.MinBy(pass => pass.Verdict.Sun?.Separation.Degrees ?? 180.0)!;
        SheetFacts facts = Evenings.Facts(evening, sunny);
        Hold[] skipped = [.. facts.Holds.Where(hold => hold.Skip is not null)];
        Assert.NotEmpty(skipped);
        string page = SetUpSheet.Of(facts);
        Assert.Contains("☼ Sun:", page, StringComparison.Ordinal);
        Assert.Equal(skipped.Length, Read(page).Descendants("tr").Count(row => row.Attribute("class")?.Value == "aside"));
        Assert.DoesNotContain("☼", SetUpSheet.Of(Evenings.Facts(evening, sunny, sun: SunRule.Fly)), StringComparison.Ordinal);
    }

    // Two on one way, five minutes apart.
    [Fact]
    public void The_advice_says_of_each_pass_when_to_come_and_when_to_leave()
    {
        Evening evening = Day("PETREL 2", "BRACKWING 7");
        SharedDish share = evening.Shares[0];
        (DishTurn first, DishTurn second) = (share.Turns[0], share.Turns[1]);
        string leave = Evenings.Berlin.Second(first.Shift.ToUtc);
        string come = Evenings.Berlin.Second(second.Shift.FromUtc);
        Assert.StartsWith($"{share.Passes[0].Satellite} and {share.Passes[1].Satellite} overlap: take {first.Pass.Satellite} to {leave}, then turn to {second.Pass.Satellite} at azimuth ", share.Words(Evenings.Berlin), StringComparison.Ordinal);
        Assert.Contains($"Leave it at {leave} for {second.Pass.Satellite} at azimuth ", share.WordsOf(first.Pass, Evenings.Berlin), StringComparison.Ordinal);
        Assert.Contains($"From {first.Pass.Satellite} turn to it at {come}: azimuth ", share.WordsOf(second.Pass, Evenings.Berlin), StringComparison.Ordinal);
        Assert.Contains(share.WordsOf(first.Pass, Evenings.Berlin), SetUpSheet.Of(Evenings.Facts(evening, first.Pass)), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_many_that_overlap_few_are_named_and_those_left_out_are_told()
    {
        Evening evening = Evenings.Of(Morning, TimeSpan.FromHours(24), Trees, 0.8, [.. Enumerable.Range(0, 9).Select(k => Evenings.Orbit($"TERN {k}", 99201 + k, 100 - (2 * k), Morning.AddHours(-5)))]);
        SharedDish share = evening.Shares.First(one => one.Passes.Length == 9);
        string words = share.Words(Evenings.Berlin);
        Assert.InRange(words.Length, 60, 500);
        Assert.Matches("^TERN [0-9], TERN [0-9], TERN [0-9] and 6 more overlap: take ", words);
        Assert.Contains("all of TERN", words, StringComparison.Ordinal);
        EveningPass left = share.Passes.First(pass => share.TurnsOf(pass).IsEmpty);
        Assert.EndsWith("overlap with it, and bring more in that time: the dish is better used there.", share.WordsOf(left, Evenings.Berlin), StringComparison.Ordinal);
    }

    [Fact]
    public void The_list_to_tick_names_everything_that_spoils_a_pass()
    {
        Evening evening = Day("PETREL 2");
        string[] items = [.. Read(SetUpSheet.Of(Evenings.Facts(evening, evening.Passes[0]))).Descendants("label").Select(label => label.Value)];
        Assert.All(
            ["Tripod", "weights", "Cable", "Disk", "Recorder", "1701.3 MHz", "Clock", "left", "right", "Amplifier: power last", "Level: the noise", "GB needed, 40.0 GB free in /home/you/recordings"],
            word => Assert.Contains(items, item => item.Contains(word, StringComparison.Ordinal)));
    }
}
