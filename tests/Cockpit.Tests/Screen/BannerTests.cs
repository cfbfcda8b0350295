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
        Assert.Equal("MOVE  ◄ LEFT 4  ▲ UP 2", Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed)).ToString());
    }

    [Fact]
    public void Next_says_how_long_it_still_takes()
    {
        Snapshot now = With(Moment.At(238, AimWord.Next), 7.1, -1.2);
        now = now with { Aim = now.Aim with { NudgeAt = now.Utc + TimeSpan.FromSeconds(11.2) } };
        Assert.Equal("NEXT 12 s:  ► RIGHT 7  ▼ DOWN 1", Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed)).ToString());
    }

    [Theory]
    [InlineData(AimWord.Point)]
    [InlineData(AimWord.Hold)]
    public void A_word_without_a_trustworthy_move_shows_none(AimWord word)
    {
        Banner banner = Banner.Of(With(Moment.At(238, word), 7, 7), new ShownMove(word, 1, Pan: false, 7, 7, TimeSpan.Zero));
        Assert.Null(banner.Side);
        Assert.Null(banner.Lift);
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
            double side = shown.Pan ? nudge.Pan.Degrees : nudge.Right.Degrees;
            return SideAgrees(banner, side) && Box(now) is var (column, row) && BoxAgrees(column, row, nudge);
        }, iter: 400, seed: "0000KOIPe036");

    [Fact]
    public void Overhead_the_turn_of_the_head_is_said()
    {
        (Snapshot now, AimError nudge) = Nudged(10, 85, 4, 0);
        Banner banner = Banner.Of(now, ShownMove.Next(null, now.Aim, now.Elapsed));
        Assert.Equal($"PAN RIGHT {Math.Round(nudge.Pan.Degrees)}", banner.Side);
        Assert.InRange(nudge.Pan.Degrees, 35, 45);
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

    private static bool SideAgrees(Banner banner, double side) => banner.Side is null
        ? Math.Abs(side) <= 0.5
        : banner.Side.Contains(side > 0 ? "RIGHT" : "LEFT", StringComparison.Ordinal)
            && banner.SideArrow == (side > 0 ? '►' : '◄')
            && banner.Side.EndsWith($" {Math.Round(Math.Abs(side), MidpointRounding.AwayFromZero)}", StringComparison.Ordinal);

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
