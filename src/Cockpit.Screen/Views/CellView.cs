using System.Drawing;
using Terminal.Gui.Drawing;
using Terminal.Gui.ViewBase;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Cockpit.Screen.Views;

/// <summary>A view that owns every cell of its area and sends only the cells that changed.</summary>
/// <remarks>
/// The library marks a cell for sending when it is written, even with what stands there already. So this view asks the
/// buffer first; it keeps no copy of its own and therefore survives resizing, a new theme and dialogs above it.
/// </remarks>
internal abstract class CellView : View
{
    private Cell[,]? _cells;
    private Point _origin;
    private int _penColumn = -2;
    private int _penRow = -2;
    private Attribute _pen;

    /// <summary>How many cells the last drawing had to send.</summary>
    public int CellsSent { get; private set; }

    /// <summary>Starts a drawing.</summary>
    protected void Begin()
    {
        _cells = App?.Driver?.Contents;
        _origin = ViewportToScreen(new Point(0, 0));
        _penColumn = -2;
        _penRow = -2;
        CellsSent = 0;
    }

    /// <summary>Writes one cell, if it is not so already.</summary>
    /// <param name="column">Its column.</param>
    /// <param name="row">Its row.</param>
    /// <param name="text">One grapheme cluster.</param>
    /// <param name="width">Columns that it takes, 1 or 2.</param>
    /// <param name="style">How it is written.</param>
    protected void Put(int column, int row, ReadOnlySpan<char> text, int width, Attribute style)
    {
        int x = _origin.X + column;
        int y = _origin.Y + row;
        if (_cells is null || (uint)y >= (uint)_cells.GetLength(0) || (uint)x >= (uint)_cells.GetLength(1))
        {
            return;
        }

        ref Cell old = ref _cells[y, x];
        if (old.Attribute is { } was && was == style && text.SequenceEqual(old.Grapheme))
        {
            return;
        }

        if (CellsSent == 0 || _pen != style)
        {
            SetAttribute(style);
            _pen = style;
        }

        if (row != _penRow || column != _penColumn)
        {
            Move(column, row);
        }

        AddStr(text.ToString());
        _penRow = row;
        _penColumn = column + width;
        CellsSent++;
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;
}
