using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Screen.Panels;
using Cockpit.Session.Computers.Picture;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Screen;

public sealed class PicturePanelTests
{
    private const string Feed = "signal";

    [Fact]
    public void A_line_becomes_a_row_of_greys_and_back()
    {
        ushort[] line = [.. Enumerable.Range(0, 2048).Select(k => (ushort)(k / 2))];
        string row = GreyRow.Of(line);
        Assert.True(GreyRow.IsRow(row));
        Assert.Equal(GreyRow.Width, row.Length);
        Assert.All(row.Select((pixel, x) => (pixel, x)), p => Assert.Equal(p.x / 2, GreyRow.GreyOf(p.pixel)));
    }

    [Theory]
    [InlineData(0, "A")]
    [InlineData(1023, "/")]
    public void Black_and_white_are_the_ends(int sample, string pixel) =>
        Assert.Equal(string.Concat(Enumerable.Repeat(pixel, GreyRow.Width)), GreyRow.Of(Enumerable.Repeat((ushort)sample, 2048).ToArray()));

    [Fact]
    public void Lines_that_were_never_told_are_lost_and_a_receiver_that_begins_anew_goes_on_below()
    {
        PictureNow? picture = PictureComputer.Next(null, new PictureGrew(Feed, 100, [Ramp(), "", Ramp()]));
        Assert.Equal((3L, 1L), (picture!.Lines, picture.Lost));
        picture = PictureComputer.Next(picture, new PictureGrew(Feed, 6, [Ramp()]));
        Assert.Equal((6L, 3L), (picture!.Lines, picture.Lost));
        picture = PictureComputer.Next(picture, new PictureGrew(Feed, 1, [Ramp()]));
        Assert.Equal((7L, 3L), (picture!.Lines, picture.Lost));
    }

    [Fact]
    public void Only_the_latest_rows_are_kept_and_all_are_counted()
    {
        PictureNow? picture = null;
        for (int line = 1; line < 3000; line += 3)
        {
            picture = PictureComputer.Next(picture, new PictureGrew(Feed, line, [Ramp(), Ramp(), ""]));
        }

        Assert.Equal((3000L, 1000L, PictureNow.MostRows), (picture!.Lines, picture.Lost, picture.Rows.Length));
    }

    // A ramp from black to white: each cell has at least as many bright pixels as the one before it, within the pattern; lost lines are dark.
    [Fact]
    public void Brighter_is_brighter_and_a_lost_line_is_dark()
    {
        ImmutableArray<string> rows = [.. Enumerable.Repeat(Ramp(), 8), "", "", .. Enumerable.Repeat(Ramp(), 2)];
        string[] lines = Shown(new PictureNow(12, 2, rows), 40, 20);
        Assert.StartsWith("PICTURE 10 lines, 2 lost", lines[0], StringComparison.Ordinal);
        int[] lit = [.. Enumerable.Range(0, 4).Select(part => lines[1..5].Sum(line => line.PadRight(40)[(part * 10)..((part * 10) + 10)].Sum(Dots)))];
        Assert.True(lit[0] < lit[1] && lit[1] < lit[2] && lit[2] < lit[3], string.Join(' ', lit));
        Assert.InRange(lit.Sum(), 4 * 40 * 4 * 0.4, 4 * 40 * 4 * 0.6);
        Assert.Equal("", lines[5].Trim());
        Assert.NotEqual("", lines[6].Trim());
    }

    [Fact]
    public void Without_a_picture_it_says_what_brings_one() =>
        Assert.Contains("lock", string.Concat(Shown(null, 40, 10)), StringComparison.Ordinal);

    private static string Ramp() => GreyRow.Of([.. Enumerable.Range(0, 2048).Select(k => (ushort)(k / 2))]);

    private static string[] Shown(PictureNow? picture, int width, int height)
    {
        Block block = PicturePanel.Of(Moment.At(60) with { Picture = picture }, width, height);
        return [.. block.Text.Split('\n').Concat(Enumerable.Repeat("", height)).Take(height)];
    }

    private static int Dots(char cell)
    {
        int at = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█".IndexOf(cell, StringComparison.Ordinal);
        return int.PopCount(at);
    }
}
