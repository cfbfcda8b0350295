using System.Collections.Immutable;
using Cockpit.Screen.Panels;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Cockpit.Tests.Screen;

/// <summary>The code as a camera sees it: cells painted as a picture, read by other code than what made it.</summary>
public sealed class QrCellsTests
{
    private const string Address = "https://192.168.143.117:17643/ABCDEFGHIJKLMNOP/";

    [Theory]
    [InlineData(8, 16)]
    [InlineData(10, 18)]
    [InlineData(7, 15)]
    public void A_decoder_reads_the_address_from_the_painted_cells(int cellWidth, int cellHeight) =>
        Assert.Equal(Address, Read(QrCells.Of(Address), cellWidth, cellHeight, border: 40, light: 255, dark: 0));

    // What a picture on a dark screen shows: it is why both colours are set, whatever the theme.
    [Fact]
    public void A_dim_code_is_read_too_and_one_without_its_light_border_on_a_dark_screen_is_not()
    {
        Assert.Equal(Address, Read(QrCells.Of(Address), 8, 16, border: 0, light: 120, dark: 10));
        ImmutableArray<string> cut = [.. QrCells.Of(Address).Skip(2).SkipLast(2).Select(line => line[4..^4])];
        Assert.Null(Read(cut, 8, 16, border: 40, light: 255, dark: 0, around: 0));
    }

    [Theory]
    [InlineData("https://10.0.0.7:17643/ABCDEFGHIJKLMNOP/", 33, 17)]
    [InlineData("https://192.168.143.117:17643/ABCDEFGHIJKLMNOP/", 37, 19)]
    [InlineData("https://[fd00:1234:5678:9abc::17]:17643/ABCDEFGHIJKLMNOP/", 37, 19)]
    public void It_has_room_in_the_smallest_terminal_with_the_words_beside_it(string address, int width, int height)
    {
        ImmutableArray<string> code = QrCells.Of(address);
        Assert.Equal(height, code.Length);
        Assert.All(code, line => Assert.Equal(width, line.Length));
    }

    [Fact]
    public void On_the_page_of_24_rows_the_code_stands_whole()
    {
        PageInput input = ScreenStates.Input("pairing");
        string[] rows = Page.Compose(input, PageMemory.Empty, 80, 24).Page.Text.Split('\n');
        Assert.Equal(Address, Read([.. rows.Skip(1).Take(19).Select(row => row.PadRight(37)[..37])], 8, 16, border: 40, light: 255, dark: 0));
        Assert.Contains(rows, row => row.Contains("https://192.168.143.117:17643/", StringComparison.Ordinal));
        Assert.Contains(rows, row => row.Contains("ABCDEFGHIJKLMNOP/", StringComparison.Ordinal));
    }

    private static string? Read(ImmutableArray<string> cells, int cellWidth, int cellHeight, int border, byte light, byte dark, byte? around = null)
    {
        int width = (cells[0].Length * cellWidth) + (2 * border);
        int height = (cells.Length * cellHeight) + (2 * border);
        byte[] grey = new byte[width * height];
        Array.Fill(grey, around ?? light);
        for (int y = 0; y < cells.Length * cellHeight; y++)
        {
            for (int x = 0; x < cells[0].Length * cellWidth; x++)
            {
                char cell = cells[y / cellHeight][x / cellWidth];
                bool upper = y % cellHeight < cellHeight / 2;
                bool isDark = cell == '█' || (cell == '▀' && upper) || (cell == '▄' && !upper);
                grey[((y + border) * width) + x + border] = isDark ? dark : light;
            }
        }

        BinaryBitmap picture = new(new HybridBinarizer(new PlanarYUVLuminanceSource(grey, width, height, 0, 0, width, height, reverseHoriz: false)));
        return new QRCodeReader().decode(picture, new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true })?.Text;
    }
}
