using System.Collections.Immutable;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Terminal.Gui.Input;
using Terminal.Gui.ViewBase;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Cockpit.Screen.Views;

/// <summary>Shows a page of panels and hands on the keys; knows nothing else.</summary>
internal sealed class PageView : CellView
{
    private Block _page = new(0, []);
    private ImmutableArray<Attribute> _attributes = [];
    private bool _solid;

    public PageView()
    {
        CanFocus = true;
        Width = Dim.Fill();
        Height = Dim.Fill();
    }

    /// <summary>A key was pressed, by its name in the key table.</summary>
    public Action<string>? Pressed { get; set; }

    /// <summary>A drawing failed; the next page is drawn all the same.</summary>
    public Action<Exception>? Failed { get; set; }

    /// <summary>Shows a page; only on the thread of the screen.</summary>
    public void Show(Block page, ImmutableArray<Attribute> attributes)
    {
        if (_attributes == attributes && _page.Equals(page))
        {
            return;
        }

        _page = page;
        _solid = !page.Lines.Any(line => line.Any(run => IsBand(run) && run.Text.AsSpan().ContainsAny(SevenBitSigns.UpperHalf, BigLetters.UpperHalf)));
        _attributes = attributes;
        SetNeedsDraw();
    }

    /// <inheritdoc/>
    protected override bool OnDrawingContent(DrawContext? context)
    {
        try
        {
            DrawPage();
        }
#pragma warning disable CA1031 // The library draws from its own loop: what is thrown here would end the screen in the middle of a pass.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            Failed?.Invoke(failure);
        }

        return true;
    }

    /// <inheritdoc/>
    protected override bool OnKeyDown(Key key)
    {
        if (KeyNames.Of(key) is { } name)
        {
            Pressed?.Invoke(name);
        }

        return true;
    }

    /// <summary>The band, whose full cells are blanks with text and ground exchanged: every terminal can fill those, and no font leaves gaps between them.</summary>
    /// <remarks>Not where the letters have halves too, which cannot be filled: half a letter in another weight is hard to read.</remarks>
    private static bool IsBand(Run run) => run.Role is >= Role.Hold and <= Role.Done;

    private void DrawPage()
    {
        Begin();
        for (int row = 0; row < _page.Height; row++)
        {
            int column = 0;
            foreach (Run run in _page.Lines[row])
            {
                Attribute style = _attributes[(int)run.Role];
                bool solid = _solid && IsBand(run);
                ReadOnlySpan<char> rest = run.Text;
                while (CellColumns.Take(ref rest, out ReadOnlySpan<char> cell, out int width))
                {
                    if (solid && cell is [SevenBitSigns.Full or BigLetters.Full])
                    {
                        Put(column, row, " ", width, ThemeAttributes.Exchanged(style));
                    }
                    else
                    {
                        Put(column, row, cell, width, style);
                    }

                    column += width;
                }
            }
        }
    }
}
