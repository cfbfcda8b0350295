using System.Collections.Immutable;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;
using Terminal.Gui.App;
using Terminal.Gui.Drawing;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;
using Terminal.Gui.Views;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Cockpit.Screen.Views;

/// <summary>The one screen: shows snapshots, reports keys, leaves the terminal as it was.</summary>
/// <remarks>
/// Make it, give it a <see cref="KeyPressed"/> handler, call <see cref="Run"/> on the main thread. Show, ShowPlayer, Bell and Stop
/// may be called on any thread, before, during and after Run. Write nothing to the terminal while Run runs.
/// </remarks>
public sealed class CockpitScreen : IDisposable
{
    private const int NotAsked = int.MinValue;
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan LongestClose = TimeSpan.FromSeconds(15);

    private readonly ScreenOptions _options;
    private readonly ScreenState _state;
    private readonly PageView _view;
    private IApplication? _app;
    private ImmutableArray<Attribute> _attributes;
    private Theme? _inked;
    private long _nextFrame;
    private int _bells;
    private int _stopCode = NotAsked;
    private volatile bool _stopSignalled;
    private volatile bool _continued;
    private byte[]? _modes;

    /// <summary>Makes a screen; the terminal is not touched before <see cref="Run"/>.</summary>
    public CockpitScreen(ScreenOptions options)
    {
        _options = options;
        _state = new ScreenState(options);
        _view = new PageView { Pressed = OnPressed, Failed = NotPainted };
    }

    /// <summary>The operator asked for something; called on the thread of the screen, must return at once.</summary>
    public Action<KeyAction>? KeyPressed { get; set; }

    /// <summary>A frame was sent to the terminal: the sequence number of its snapshot. Called on the thread of the screen.</summary>
    public Action<long>? Painted { get; set; }

    /// <summary>A part of the screen failed and the rest goes on: one sentence, each once. Called on the thread of the screen.</summary>
    public Action<string>? Failed
    {
        get => _state.Failed;
        set => _state.Failed = value;
    }

    /// <summary>Run ended because the screen failed, not because anybody asked; the terminal is restored.</summary>
    public bool Broken { get; private set; }

    /// <summary>Why the screen cannot be opened here, one sentence; null when it can.</summary>
    public static string? WhyNoScreen() => Driver.IsAttachedToTerminal(out _, out _)
        ? null
        : "The screen needs a terminal, and neither input nor output is one; run it in a terminal window, without redirecting it.";

    /// <summary>Shows a snapshot in the next frame; the latest wins. Any thread.</summary>
    public void Show(Snapshot snapshot) => _state.Show(snapshot);

    /// <summary>Shows where the player of a replay is; null = no replay. Any thread.</summary>
    public void ShowPlayer(PlayerNow? player) => _state.ShowPlayer(player);

    /// <summary>Takes the review of the pass, to be shown when it is over. Any thread.</summary>
    public void ShowReview(ShownReview review) => _state.ShowReview(review);

    /// <summary>Takes how a phone is paired; null = there is nothing to pair. Any thread.</summary>
    public void ShowPairing(ShownPairing? pairing) => _state.ShowPairing(pairing);

    /// <summary>Shows a sentence for a few seconds in place of the keys. Only from <see cref="KeyPressed"/>.</summary>
    public void Say(string sentence) => _state.Say(sentence);

    /// <summary>Rings the terminal's bell, the fall-back of the sound. Any thread.</summary>
    public void Bell() => Interlocked.Increment(ref _bells);

    /// <summary>Closes the screen; Run returns the code. Any thread; the first code wins.</summary>
    public void Stop(int exitCode) => Interlocked.CompareExchange(ref _stopCode, exitCode, NotAsked);

    /// <summary>Opens the screen and shows it until Stop, a quit key, a signal or a failure; restores the terminal.</summary>
    /// <returns>The exit code: 0 after a quit key, that of Stop, 128 + number of a signal, 1 after a failure (said in one sentence).</returns>
    public int Run()
    {
        using TerminalLife life = new(_options.Complaints);
        life.StopRequested = Stop;
        life.SuspendRefused = () => _stopSignalled = true;
        life.Continued = () => _continued = true;
        IApplication app = Application.Create();
        try
        {
            Application.MaximumIterationsPerSecond = 40;
            app.Init();
            Driver.Force16Colors |= ColourChoice.IsSixteen(Environment.GetEnvironmentVariable);
            _app = app;
            SetUp(app);
            using Window root = new() { BorderStyle = LineStyle.None };
            root.Add(_view);
            _view.SetFocus();
            app.Iteration += OnIteration;
            app.Run(root);
        }
#pragma warning disable CA1031 // The last barrier before a wrecked terminal: whatever failed is said in one sentence.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            Broken = true;
            life.Report(failure);
        }
        finally
        {
            _app = null;
            app.Driver?.GetOutput().Write(TerminalLife.Wiped);
            Close(app);
        }

        int code = Volatile.Read(ref _stopCode);
        return Broken ? TerminalLife.Failed : code == NotAsked ? 0 : code;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Stop(0);
        _view.Dispose();
    }

    /// <summary>Closes the library. Its input loop never ends on a terminal that is gone; one that is there waits until it is as it was.</summary>
    private void Close(IApplication app)
    {
        Thread closing = new(app.Dispose) { IsBackground = true, Name = "closing" };
        closing.Start();
        if (!closing.Join(ClosePatience) && !_options.TerminalIsGone())
        {
            closing.Join(LongestClose);
        }
    }

    private static void SetUp(IApplication app)
    {
        // The library drops mouse events when told to, but leaves tracking on; off, the terminal's own selection works again.
        app.Mouse.IsMouseDisabled = true;
        app.Driver?.GetOutput().Write("\x1b[?1003l\x1b[?1015l\x1b[?1006l");

        // Esc would end the program in the middle of a pass.
        app.Keyboard.KeyBindings.Remove(Key.Esc);
    }

    private void OnIteration(object? sender, EventArgs e)
    {
        if (_app is not { } app)
        {
            return;
        }

        if (Volatile.Read(ref _stopCode) != NotAsked)
        {
            app.RequestStop();
            return;
        }

        AnswerSignals(app);

        if (Interlocked.Exchange(ref _bells, 0) > 0)
        {
            app.Driver?.GetOutput().Write("\a");
        }

        long now = _options.Time.GetTimestamp();
        if (now >= _nextFrame)
        {
            long step = _options.Time.TimestampFrequency / _options.FramesPerSecond;
            _nextFrame = Math.Max(_nextFrame + step, now);
            Paint(app);
        }
    }

    /// <summary>After a stop from outside (SIGSTOP) the terminal may show anything in any mode: modes and the whole page are sent again.</summary>
    private void AnswerSignals(IApplication app)
    {
        if (_stopSignalled)
        {
            _stopSignalled = false;
            OnPressed(KeyNames.Suspend);
        }

        _modes ??= TerminalModes.Read();
        if (_continued)
        {
            _continued = false;
            if (_modes is { } modes)
            {
                TerminalModes.Set(modes);
            }

            app.Driver?.GetOutput().Write("\x1b[?1049h\x1b[?25l");
            app.Driver?.ClearContents();
            _view.SetNeedsDraw();
            _nextFrame = 0;
        }
    }

    /// <summary>Paints a frame; one that cannot be painted is passed over, for the next may do, and the pass goes on in any case.</summary>
    private void Paint(IApplication app)
    {
        try
        {
            if (_state.Frame(app.Screen.Width, app.Screen.Height) is not { } page)
            {
                return;
            }

            if (_inked != _state.Theme)
            {
                _inked = _state.Theme;
                _attributes = ThemeAttributes.Of(_state.Theme, Driver.Force16Colors);
            }

            _view.Show(page, _attributes);
            app.LayoutAndDraw(forceRedraw: false);
            Painted?.Invoke(_state.PaintedSequence);
        }
#pragma warning disable CA1031 // A frame is worth less than the pass.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            NotPainted(failure);
        }
    }

    private void NotPainted(Exception failure) =>
        _state.Report($"A frame could not be painted: {failure.Message.ReplaceLineEndings(" ")}");

    private void OnPressed(string key)
    {
        _nextFrame = 0;
        if (_state.Press(key) is not { } action)
        {
            return;
        }

        try
        {
            KeyPressed?.Invoke(action);
        }
#pragma warning disable CA1031 // Whatever a key sets off may fail; the screen and the pass go on.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            Failed?.Invoke($"A key could not be answered: {failure.Message.ReplaceLineEndings(" ")}");
        }

        if (action is QuitAction)
        {
            Stop(0);
        }
    }
}
