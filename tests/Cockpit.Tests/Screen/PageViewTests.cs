using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Cockpit.Screen.Views;
using Cockpit.Session.State;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;
using Key = Terminal.Gui.Input.Key;

namespace Cockpit.Tests.Screen;

public sealed class PageViewTests
{
    private static readonly Theme Dusk = ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "themes")).Find("dusk")!;

    [Theory]
    [InlineData(80, 24)]
    [InlineData(120, 40)]
    public void The_terminal_shows_the_page_as_it_is(int width, int height)
    {
        using Rig rig = new(width, height);
        using PageView view = new();
        Block page = PageTests.Compose("move", width, height);
        view.Show(page, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Show(view);
        Assert.Equal(Shown(page), rig.Text());
        Assert.Equal(new Color(0xE6, 0x9F, 0x00), rig.Ink(width - 1, 0).Background);
    }

    /// <summary>The text of the terminal: letters without halves are filled, and a filled cell is a blank.</summary>
    private static string Shown(Block page) => page.Text.Contains('▀', StringComparison.Ordinal)
        ? page.Text
        : string.Join('\n', page.Text.Split('\n').Select(line => line.Replace('█', ' ').TrimEnd()));

    [Theory]
    [InlineData("dusk", 80, 24, true, '#', true)]
    [InlineData("dusk", 120, 40, true, '#', true)]
    [InlineData("mono", 80, 24, true, '#', true)]
    [InlineData("dusk", 40, 10, true, '#', false)]
    [InlineData("dusk", 80, 24, false, '█', false)]
    [InlineData("dusk", 120, 40, false, '█', true)]
    public void Large_letters_are_filled_where_they_have_no_halves(string theme, int width, int height, bool sevenBit, char full, bool filled)
    {
        using Rig rig = new(width, height);
        using PageView view = new();
        Block page = Page.Compose(ScreenStates.Input("hold") with { SevenBit = sevenBit }, PageMemory.Empty, width, height).Page;
        Attribute[] styles = [.. ThemeAttributes.Of(ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "themes")).Find(theme)!, sixteen: false)];
        view.Show(page, [.. styles]);
        rig.Show(view);
        string[] drawn = page.Text.Split('\n');
        string[] shown = rig.Text().Split('\n');
        int row = Array.FindIndex(drawn, line => line.Contains(full, StringComparison.Ordinal));
        int column = drawn[row].LastIndexOf(full);
        Assert.Equal(filled ? ' ' : full, shown[row].PadRight(width)[column]);
        Attribute usual = styles[(int)Role.Hold];
        Assert.Equal(filled ? ThemeAttributes.Exchanged(usual) : usual, rig.Ink(column, row));
        Assert.NotEqual(usual, ThemeAttributes.Exchanged(usual));
    }

    [Fact]
    public void In_sixteen_colours_black_letters_are_not_bold_which_would_be_grey()
    {
        Attribute move = ThemeAttributes.Of(Dusk, sixteen: true)[(int)Role.Move];
        Assert.Equal((new Color(ColorName16.Black), TextStyle.None), (move.Foreground, move.Style));
        Assert.Equal(TextStyle.Bold, ThemeAttributes.Of(Dusk, sixteen: false)[(int)Role.Move].Style);
    }

    [Fact]
    public void Only_the_cells_that_changed_are_sent()
    {
        using Rig rig = new(80, 24);
        using PageView view = new();
        Block page = PageTests.Compose("hold", 80, 24);
        view.Show(page, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Show(view);
        Block later = Page.Compose(ScreenStates.Input("hold") with { Snapshot = Moment.At(209.1) }, PageMemory.Empty, 80, 24).Page;
        view.Show(later, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Draw();
        Assert.InRange(view.CellsSent, 1, 400);
        Assert.Equal(later.Text, rig.Text());
    }

    [Fact]
    public void A_terminal_made_small_and_large_again_recovers()
    {
        using Rig rig = new(80, 24);
        using PageView view = new();
        rig.Show(view);
        foreach ((int width, int height) in new[] { (80, 24), (60, 20), (20, 3), (120, 40), (80, 24) })
        {
            rig.Resize(width, height);
            Block page = PageTests.Compose("hold", width, height);
            view.Show(page, ThemeAttributes.Of(Dusk, sixteen: false));
            rig.Draw();
            Assert.Equal(Shown(page).TrimEnd(), rig.Text().TrimEnd());
        }
    }

    [Fact]
    public void A_new_theme_inks_every_cell_anew()
    {
        using Rig rig = new(80, 24);
        using PageView view = new();
        Block page = PageTests.Compose("hold", 80, 24);
        view.Show(page, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Show(view);
        Theme day = ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "themes")).Find("day")!;
        view.Show(page, ThemeAttributes.Of(day, sixteen: false));
        rig.Draw();
        Assert.Equal(new Color(255, 255, 255), rig.Ink(79, 5).Background);
        Assert.Equal(new Color(0x00, 0x3F, 0x73), rig.Ink(40, 0).Background);
    }

    [Fact]
    public void Wide_letters_stand_whole_and_give_their_place_back()
    {
        using Rig rig = new(80, 24);
        using PageView view = new();
        view.Show(Named("\u885B\u661F\u6F22\u5B57 1"), ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Show(view);
        Assert.Contains("\u885B \u661F \u6F22 \u5B57  1  max", rig.Text(), StringComparison.Ordinal);
        Block narrow = Named("PETREL 2");
        view.Show(narrow, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Draw();
        Assert.Equal(narrow.Text, rig.Text());
    }

    [Fact]
    public void Any_name_can_be_painted()
    {
        using Rig rig = new(80, 24);
        List<Exception> failures = [];
        using PageView view = new() { Failed = failures.Add };
        rig.Show(view);
        RandomNames names = new(4);
        for (int i = 0; i < 50; i++)
        {
            Canvas page = new(80, 24);
            for (int row = 0; row < 24; row++)
            {
                page.Text(row % 5, row, names.Next(), Role.Plain);
            }

            view.Show(page.ToBlock(), ThemeAttributes.Of(Dusk, sixteen: false));
            rig.Draw();
            Assert.True(TextFilter.FirstHarmful(rig.Text().Replace("\n", "", StringComparison.Ordinal)) < 0);
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void A_page_that_cannot_be_drawn_is_told_and_ends_nothing()
    {
        using Rig rig = new(80, 24);
        List<Exception> failures = [];
        using PageView view = new() { Failed = failures.Add };
        Block page = PageTests.Compose("hold", 80, 24);
        view.Show(page, []);
        rig.Show(view);
        Assert.NotEmpty(failures);
        view.Show(page, ThemeAttributes.Of(Dusk, sixteen: false));
        rig.Draw();
        Assert.Equal(page.Text, rig.Text());
    }

    private static Block Named(string satellite)
    {
        PageInput input = ScreenStates.Input("hold");
        Snapshot now = input.Snapshot!;
        return Page.Compose(input with { Snapshot = now with { Settings = now.Settings! with { SatelliteName = satellite } } }, PageMemory.Empty, 80, 24).Page;
    }

    [Fact]
    public void Keys_arrive_by_their_names()
    {
        using Rig rig = new(80, 24);
        List<string> names = [];
        using PageView view = new() { Pressed = names.Add };
        rig.Show(view);
        foreach (Key key in new[] { Key.Space, Key.Enter, Key.P, Key.Q.WithShift, Key.C.WithCtrl, Key.CursorLeft, Key.PageDown, Key.Home, new Key('+'), new Key('.'), new Key('?'), Key.Esc, Key.F5 })
        {
            rig.Press(key);
        }

        Assert.Equal(["Space", "Enter", "P", "Q", "Ctrl-C", "Left", "PageDown", "Home", "+", ".", "?"], names);
    }
}
