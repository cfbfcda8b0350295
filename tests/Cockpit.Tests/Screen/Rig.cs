using System.Runtime.CompilerServices;
using System.Text;
using Terminal.Gui.App;
using Terminal.Gui.Drawing;
using Terminal.Gui.Drivers;
using Terminal.Gui.Testing;
using Terminal.Gui.Time;
using Terminal.Gui.ViewBase;
using Terminal.Gui.Views;
using Attribute = Terminal.Gui.Drawing.Attribute;
using Key = Terminal.Gui.Input.Key;

namespace Cockpit.Tests.Screen;

/// <summary>An application without a terminal: the driver's buffer stands for the screen.</summary>
internal sealed class Rig : IDisposable
{
    private readonly IApplication _app = Application.Create(new VirtualTimeProvider());
    private readonly Window _root = new() { BorderStyle = LineStyle.None };
    private SessionToken? _token;

    public Rig(int columns, int rows)
    {
        _app.Init(DriverRegistry.Names.ANSI);
        Resize(columns, rows);
    }

    public void Show(View view)
    {
        _root.Add(view);
        _token = _app.Begin(_root);
        view.SetFocus();
        Draw();
    }

    public void Draw() => _app.LayoutAndDraw();

    public void Resize(int columns, int rows) => _app.Driver!.SetScreenSize(columns, rows);

    public void Press(Key key) => _app.InjectKey(key);

    /// <summary>The whole screen, rows without blanks at their ends.</summary>
    public string Text()
    {
        Cell[,] cells = _app.Driver!.Contents!;
        StringBuilder text = new();
        for (int row = 0; row < _app.Driver.Rows; row++)
        {
            StringBuilder line = new();
            for (int column = 0; column < _app.Driver.Cols; column++)
            {
                line.Append(cells[row, column].Grapheme);
            }

            text.Append(row > 0 ? "\n" : "").Append(line.ToString().TrimEnd());
        }

        return text.ToString();
    }

    public Attribute Ink(int column, int row) => _app.Driver!.Contents![row, column].Attribute!.Value;

    public void Dispose()
    {
        if (_token is not null)
        {
            _app.End(_token);
        }

        _root.Dispose();
        _app.Dispose();
    }

    /// <summary>Keeps the driver away from any terminal.</summary>
    [ModuleInitializer]
    internal static void NoTerminal() => Environment.SetEnvironmentVariable("DisableRealDriverIO", "1");
}
