using System.Text;
using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Terminal.Gui.Text;

namespace Cockpit.Tests.Screen;

public sealed class CellColumnsTests
{
    [Theory]
    [InlineData("PETREL 2", "P|E|T|R|E|L| |2", 8)]
    [InlineData("\u885B\u661F1", "\u885B|\u661F|1", 5)]
    [InlineData("e\u0301x", "e\u0301|x", 2)]
    [InlineData("\U0001F680", "\U0001F680", 2)]
    [InlineData("\U0001F6F0\uFE0F!", "\U0001F6F0|!", 2)]
    [InlineData("a\U0001F469\u200D\U0001F680b", "a|\uFFFD|b", 3)]
    [InlineData("\U0001F1E6\U0001F1F9", "\uFFFD", 1)]
    [InlineData("\u0301", "\uFFFD", 1)]
    [InlineData("a\u001Bb\u009Bc\u202Ed", "a|\uFFFD|b|\uFFFD|c|\uFFFD|d", 7)]
    public void A_text_falls_into_cells(string text, string cells, int columns)
    {
        Assert.Equal(cells, string.Join('|', Cells(text).Select(cell => cell.Text)));
        Assert.Equal(columns, CellColumns.Width(text));
    }

    [Fact]
    public void Half_a_surrogate_pair_is_one_replacement_sign() => Assert.Equal([("\uFFFD", 1), ("x", 1), ("\uFFFD", 1)], Cells("\uD83Dx\uDEF0"));

    [Fact]
    public void Every_character_of_unicode_is_as_wide_as_the_terminal_library_takes_it()
    {
        List<string> wrong = [];
        for (int value = 0; value <= 0x10FFFF; value++)
        {
            if (Rune.IsValid(value) && (Cells(new Rune(value).ToString()) is not [var (text, width)] || width != text.GetColumns() || TextFilter.FirstHarmful(text) >= 0))
            {
                wrong.Add($"U+{value:X4}");
            }
        }

        Assert.Empty(wrong);
    }

    [Fact]
    public void A_cell_of_any_name_is_as_wide_as_the_terminal_library_takes_it()
    {
        RandomNames names = new(2);
        for (int i = 0; i < 10_000; i++)
        {
            string name = names.Next();
            Assert.All(Cells(name), cell => Assert.True(cell.Width == cell.Text.GetColumns(), $"{RandomNames.Visible(name)}: {RandomNames.Visible(cell.Text)} {cell.Width} {cell.Text.GetColumns()}"));
        }
    }

    [Fact]
    public void Fitting_counts_columns_not_letters()
    {
        Assert.Equal("\u885B\u661F \u2026", Figures.Fit("\u885B\u661F\u6F22\u5B57", 6));
        Assert.Equal("\u885B\u661F  ", Figures.Fit("\u885B\u661F", 6));
        Assert.Equal(" ", Figures.Fit("\u885B", 1));
    }

    [Fact]
    public void Half_of_a_wide_letter_that_is_covered_leaves_a_blank()
    {
        Canvas canvas = new(6, 1);
        canvas.Text(0, 0, "\u885B\u661F\u6F22", Role.Plain);
        canvas.Text(1, 0, "x", Role.Plain);
        canvas.Text(4, 0, "y", Role.Plain);
        Assert.Equal(" x\u661Fy", canvas.ToBlock().Text);
    }

    [Fact]
    public void A_wide_letter_that_does_not_fit_at_the_edge_leaves_a_blank()
    {
        Canvas canvas = new(3, 1);
        canvas.Text(0, 0, "\u885B\u661F", Role.Plain);
        canvas.Text(-1, 0, "\u885B", Role.Plain);
        Block block = canvas.ToBlock();
        Assert.Equal(3, block.Lines[0].Sum(run => CellColumns.Width(run.Text)));
        Assert.Equal("", block.Text.Trim());
    }

    [Fact]
    public void A_line_of_any_names_fills_its_columns_exactly()
    {
        RandomNames names = new(3);
        for (int i = 0; i < 2000; i++)
        {
            Canvas canvas = new(40, 1);
            canvas.Text(i % 7, 0, names.Next(), Role.Plain);
            canvas.TextBefore(38 - (i % 11), 0, names.Next(), i % 2 == 0 ? Role.Plain : Role.Dim);
            Canvas outer = new(44, 1);
            outer.Put(canvas.ToBlock(), 2, 0);
            Block block = outer.ToBlock();
            Assert.Equal(44, block.Lines[0].Sum(run => CellColumns.Width(run.Text)));
            Assert.True(TextFilter.FirstHarmful(block.Text) < 0);
        }
    }

    private static List<(string Text, int Width)> Cells(string text)
    {
        List<(string, int)> cells = [];
        ReadOnlySpan<char> rest = text;
        while (CellColumns.Take(ref rest, out ReadOnlySpan<char> cell, out int width))
        {
            cells.Add((cell.ToString(), width));
        }

        return cells;
    }
}
