using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;
using CsCheck;

namespace Cockpit.Tests.Screen;

public sealed class BannerTests
{
    private static readonly Gen<(double Azimuth, double Elevation, double Right, double Up)> Moves =
        Gen.Select(Gen.OneOf(Gen.Double[0, 360], Gen.Double[355, 365]), Gen.OneOf(Gen.Double[5, 60], Gen.Double[80, 86]), Gen.Double[-9, 9], Gen.Double[-4, 4]);

    [Fact]
    public void The_command_says_the_word_the_arrows_and_whole_degrees()
    {
        Snapshot now = With(Moment.At(238, AimWord.Move), -4.2, 1.7);
        Assert.Equal("MOVE  ◄ LEFT 4° pan  ▲ UP 2° tilt", Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed)).ToString());
    }

    [Fact]
    public void Next_says_how_long_it_still_takes()
    {
        Snapshot now = With(Moment.At(238, AimWord.Next), 7.1, -1.2);
        now = now with { Aim = now.Aim with { NudgeAt = now.Utc + TimeSpan.FromSeconds(11.2) } };
        Assert.Equal("NEXT 12 s:  ► RIGHT 7° pan  ▼ DOWN 1° tilt", Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed)).ToString());
    }

    [Theory]
    [InlineData(AimWord.Point, false)]
    [InlineData(AimWord.Done, false)]
    [InlineData(AimWord.Hold, true)]
    [InlineData(AimWord.Next, true)]
    [InlineData(AimWord.Search, true)]
    [InlineData(AimWord.Move, true)]
    public void Every_word_of_the_pass_shows_which_way_and_how_far(AimWord word, bool shows)
    {
        Banner banner = Banner.Of(With(Moment.At(238, word), 7, 6), new ShownMove(word, 1, 7, 6, TimeSpan.Zero));
        Assert.Equal(shows ? (7, 6) : (0, 0), (banner.Side, banner.Lift));
    }

    [Theory]
    [InlineData(0.0, "0", "s")]
    [InlineData(11.2, "12", "s")]
    [InlineData(99.0, "99", "s")]
    [InlineData(99.5, "2", "min")]
    [InlineData(285.0, "5", "min")]
    public void The_time_left_is_two_digits_and_a_unit(double seconds, string number, string unit)
    {
        Snapshot now = Moment.At(238, AimWord.Hold);
        now = now with { Aim = now.Aim with { NudgeAt = now.Utc + TimeSpan.FromSeconds(seconds) } };
        Assert.Equal((number, unit), Banner.Of(now, null).Countdown);
    }

    // Fly-to only: a hundred moves, at 85 degrees of elevation and across north too; arrow, word, number and box must agree with
    // the true move of the head.
    [Fact]
    public void Arrow_word_number_and_box_agree_with_the_move() =>
        Moves.Sample(move =>
        {
            (Snapshot now, AimError nudge) = Nudged(move.Azimuth, move.Elevation, move.Right, move.Up);
            ShownMove shown = ShownMove.Next(null, now.Aim, now.Elapsed)!;
            Banner banner = Banner.Of(now, shown);
            return SideAgrees(banner, nudge.Pan.Degrees) && LiftAgrees(banner, nudge.Tilt.Degrees) && Box(now) is var (column, row) && BoxAgrees(column, row, nudge);
        }, iter: 400, seed: "0000KOIPe036");

    [Theory]
    [InlineData(Mount.PanTilt, 10.0, "RIGHT 40° pan")]
    [InlineData(Mount.PanTilt, 60.0, "RIGHT 40° pan")]
    [InlineData(Mount.Free, 10.0, "RIGHT 4°")]
    public void The_unit_is_that_of_the_mount_at_every_elevation(Mount mount, double azimuth, string words)
    {
        (Snapshot now, _) = Nudged(azimuth, 85, 4, 0);
        now = now with { Aim = now.Aim with { Mount = mount } };
        string? side = Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed)).SideWords;
        Assert.Equal(words, side is null ? null : System.Text.RegularExpressions.Regex.Replace(side, "3[89]|4[01]", "40", System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(1)));
    }

    [Theory]
    [InlineData(160, 10, 5)]
    [InlineData(120, 10, 5)]
    [InlineData(80, 10, 5)]
    [InlineData(80, 3, 3)]
    [InlineData(40, 12, 11)]
    [InlineData(40, 6, 6)]
    [InlineData(20, 6, 6)]
    public void The_largest_letters_that_fit_are_taken(int width, int height, int rows)
    {
        Snapshot now = With(Moment.At(238, AimWord.Next), -12.0, 6.0);
        ShownMove? move = ShownMove.Next(null, now.Aim, now.Elapsed);
        Assert.Equal(rows, BannerPanel.RowsFor(now, move, width, height));
        string text = BannerPanel.Of(now, move, width, rows).Text;
        Assert.True(text.Count(c => c is '█' or '▀' or '▄') > 25, text);
    }

    [Theory]
    [InlineData(false, "az")]
    [InlineData(true, "mag")]
    public void Who_works_by_compass_sets_up_at_what_the_compass_reads(bool compass, string unit)
    {
        Snapshot now = Moment.At(-12, AimWord.Point);
        now = now with { Settings = now.Settings! with { NorthByCompass = compass } };
        double wanted = now.Aim.Target!.Azimuth.Degrees - (compass ? now.Settings!.MagneticDeclination!.Value.Degrees : 0.0);
        BandPiece azimuth = BandPieces.Of(Banner.Of(now, null), now)[1];
        Assert.Equal((Math.Round((wanted + 360.0) % 360.0), unit), (double.Parse(azimuth.Big, System.Globalization.CultureInfo.InvariantCulture), azimuth.Unit));
    }

    [Fact]
    public void A_number_that_wobbles_by_less_than_a_degree_stands_still()
    {
        ShownMove? shown = null;
        Snapshot now = Moment.At(238, AimWord.Move);
        for (int i = 0; i < 100; i++)
        {
            shown = ShownMove.Next(shown, With(now, 4.0 + (0.9 * Math.Sin(i)), 2).Aim, TimeSpan.FromSeconds(i / 10.0));
            Assert.Equal(4, shown!.Side);
        }
    }

    [Fact]
    public void A_number_changes_at_most_twice_a_second()
    {
        ShownMove? shown = null;
        Snapshot now = Moment.At(238, AimWord.Move);
        int changes = 0;
        for (int i = 0; i < 100; i++)
        {
            int before = shown?.Side ?? 0;
            shown = ShownMove.Next(shown, With(now, i * 0.5, 2).Aim, TimeSpan.FromSeconds(i / 10.0));
            changes += before == shown!.Side ? 0 : 1;
        }

        Assert.InRange(changes, 15, 20);
    }

    [Fact]
    public void A_new_word_shows_its_move_at_once()
    {
        Snapshot now = Moment.At(238, AimWord.Next);
        ShownMove? shown = ShownMove.Next(null, With(now, 4.4, 2).Aim, TimeSpan.FromSeconds(1.0));
        now = now with { Aim = now.Aim with { Word = AimWord.Move } };
        Assert.Equal(5, ShownMove.Next(shown, With(now, 4.6, 2).Aim, TimeSpan.FromSeconds(1.1))!.Side);
    }

    [Fact]
    public void Every_word_has_a_band_and_a_mark_of_its_own()
    {
        string[] bands = [.. Enum.GetValues<AimWord>().Select(word =>
        {
            Block band = BannerPanel.Of(Moment.At(238, word), null, 80, BannerPanel.SmallRows);
            return $"{band.Lines[0][0].Role} {string.Concat(band.Lines[0].Select(run => run.Text))[..2]}";
        })];
        Assert.Equal(bands.Length, bands.Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(bands.Length, bands.Select(band => band[^2..]).Distinct(StringComparer.Ordinal).Count());
    }

    private static Snapshot With(Snapshot now, double right, double up) => now with
    {
        Aim = now.Aim with
        {
            Nudge = new AimError(Angle.FromDegrees(right), Angle.FromDegrees(up), Angle.FromDegrees(right), Angle.FromDegrees(up)),
        },
    };

    private static (Snapshot Now, AimError Nudge) Nudged(double azimuth, double elevation, double right, double up)
    {
        (Angle az, Angle el) = AimErrors.Moved(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), Angle.FromDegrees(right), Angle.FromDegrees(up));
        AimError nudge = AimErrors.Between(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), az, el);
        Snapshot now = Moment.At(238, AimWord.Move);
        Pointing dish = new(Angle.FromDegrees(azimuth).WrappedToTurn(), Angle.FromDegrees(elevation), Angle.Zero, PointingOrigin.Mark);
        Hold target = now.Aim.Target! with { Azimuth = az, Elevation = el };
        return (now with { Sky = null, Aim = now.Aim with { Dish = dish, Target = target, Nudge = nudge, Error = null } }, nudge);
    }

    private static bool SideAgrees(Banner banner, double side) => Agrees(banner.Side, banner.SideWords, side, "RIGHT", "LEFT");

    private static bool LiftAgrees(Banner banner, double lift) => Agrees(banner.Lift, banner.LiftWords, lift, "UP", "DOWN");

    private static bool Agrees(int shown, string? words, double wanted, string positive, string negative) =>
        shown == (int)Math.Round(wanted, MidpointRounding.AwayFromZero)
        && (shown == 0 ? words is null : words!.StartsWith($"{(wanted > 0 ? positive : negative)} {Math.Abs(shown)}°", StringComparison.Ordinal));

    private static (int Column, int Row) Box(Snapshot now)
    {
        string[] rows = PursuitPanel.Of(now, 41, 21).Lines.Select(line => string.Concat(line.Where(run => run.Role is Role.AimPoint || run.Text.Length > 0).Select(run => run.Role == Role.AimPoint ? run.Text : new string(' ', run.Text.Length)))).ToArray();
        int row = Array.FindIndex(rows, text => text.Contains('X', StringComparison.Ordinal));
        return (rows[row].IndexOf('X', StringComparison.Ordinal), row);
    }

    private static bool BoxAgrees(int column, int row, AimError nudge) =>
        (Math.Abs(nudge.Right.Degrees) < 1 || Math.Sign(column - 20) == Math.Sign(nudge.Right.Degrees))
        && (Math.Abs(nudge.Up.Degrees) < 1.6 || Math.Sign(10 - row) == Math.Sign(nudge.Up.Degrees));
}
