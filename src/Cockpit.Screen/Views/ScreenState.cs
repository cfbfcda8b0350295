using System.Globalization;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Themes;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Screen.Views;

/// <summary>What the screen holds between two frames: the latest snapshot, help, theme, notices. No terminal in it.</summary>
/// <remarks>Show and ShowPlayer may be called on any thread; everything else belongs to the thread of the screen.</remarks>
internal sealed class ScreenState
{
    private const int MostReports = 100;
    private static readonly TimeSpan NoticeLasts = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan SecondPressWithin = TimeSpan.FromSeconds(4);

    private readonly ThemeCatalog _shelf;
    private readonly bool _replay;
    private readonly bool _noColour;
    private readonly bool _sevenBit;
    private readonly TimeProvider _time;
    private readonly HashSet<string> _reported = new(StringComparer.Ordinal);
    private Snapshot? _latest;
    private StrongBox? _player;
    private PageMemory _memory = PageMemory.Empty;
    private PageInput? _painted;
    private (int Width, int Height) _paintedSize;
    private Block? _page;
    private bool _help;
    private PlotView? _chosen;
    private ShownReview? _review;
    private ShownPairing? _pairing;
    private string? _notice;
    private long _noticeAt;
    private long? _quitAskedAt;

    public ScreenState(ScreenOptions options)
    {
        _replay = options.Replay;
        _noColour = options.NoColour;
        _sevenBit = options.Drawing.IsSevenBit();
        _time = options.Time;
        _shelf = ThemeCatalog.Load(options.ThemesFolder);
        string wanted = _noColour ? ThemeCatalog.Mono : options.Theme;
        Theme = _shelf.Find(wanted) ?? _shelf.Themes[0];
        if (_shelf.Trouble is { } trouble)
        {
            Notice(trouble);
        }
        else if (_shelf.Find(wanted) is null)
        {
            Notice($"There is no theme \"{wanted}\"; {Theme.Name} is used.");
        }
    }

    /// <summary>A part of the screen failed; one sentence, each once.</summary>
    public Action<string>? Failed { get; set; }

    /// <summary>The theme in use.</summary>
    public Theme Theme { get; private set; }

    /// <summary>Sequence number of the snapshot in the last frame; 0 before the first.</summary>
    public long PaintedSequence => _painted?.Snapshot?.Sequence ?? 0;

    /// <summary>Takes the latest snapshot, from any thread.</summary>
    public void Show(Snapshot snapshot) => Volatile.Write(ref _latest, snapshot);

    /// <summary>Takes the latest state of the player, from any thread; null = no replay.</summary>
    public void ShowPlayer(PlayerNow? player) => Volatile.Write(ref _player, new StrongBox(player));

    /// <summary>Takes the review of the pass, from any thread.</summary>
    public void ShowReview(ShownReview review) => Volatile.Write(ref _review, review);

    /// <summary>Takes how a phone is paired, from any thread; null = there is nothing to pair.</summary>
    public void ShowPairing(ShownPairing? pairing) => Volatile.Write(ref _pairing, pairing);

    /// <summary>Makes the page of this moment; null when it would be the same as the last.</summary>
    public Block? Frame(int width, int height)
    {
        if (_notice is not null && _time.GetElapsedTime(_noticeAt) > NoticeLasts)
        {
            _notice = null;
        }

        PageInput input = new(Volatile.Read(ref _latest), Volatile.Read(ref _player)?.Player, _replay, _help, _notice, View(), Volatile.Read(ref _review), _sevenBit, Volatile.Read(ref _pairing));
        if (_page is not null && _paintedSize == (width, height) && _painted == input)
        {
            return null;
        }

        ComposedPage composed = Page.Compose(input, _memory, width, height);
        (_page, _memory) = (composed.Page, composed.Memory);
        foreach (string failure in composed.Failures)
        {
            Report(failure);
        }

        _painted = input;
        _paintedSize = (width, height);
        return _page;
    }

    /// <summary>Tells of a failure, each sentence once.</summary>
    public void Report(string failure)
    {
        if (_reported.Count < MostReports && _reported.Add(failure))
        {
            Failed?.Invoke(failure);
        }
    }

    /// <summary>Shows a sentence for a few seconds.</summary>
    public void Say(string sentence) => Notice(sentence);

    /// <summary>Answers a key.</summary>
    /// <returns>What the program must do; null when nothing is left for it.</returns>
    public KeyAction? Press(string key)
    {
        if (KeyTable.Find(key, _replay, Volatile.Read(ref _latest)?.Desk.Head is not null) is not { } entry)
        {
            if (KeyTable.WhyNot(key, _replay) is { } why)
            {
                Notice(why);
            }

            return null;
        }

        long? asked = _quitAskedAt;
        _quitAskedAt = null;
        switch (entry.Action)
        {
            case ViewAction { Verb: ViewVerb.Help }:
                _help = !_help;
                return null;
            case ViewAction { Verb: ViewVerb.Picture }:
                _chosen = NextView();
                return null;
            case ViewAction { Verb: ViewVerb.NextTheme }:
                NextTheme();
                return null;
            case ChooseAction:
                return Chosen(key[0] - '1');
            case QuitAction { AtOnce: false } when InPass && !(asked is { } at && _time.GetElapsedTime(at) <= SecondPressWithin):
                _quitAskedAt = _time.GetTimestamp();
                Notice($"The pass is running. Press {key} again within {SecondPressWithin.TotalSeconds.ToString("0", CultureInfo.InvariantCulture)} s to leave.");
                return null;
            case PairAction when Volatile.Read(ref _latest)?.Feeds.Any(feed => string.Equals(feed.Name, Sources.Phone, StringComparison.Ordinal)) != true:
                Notice($"{key} shows the code for a phone on the dish: start with --phone.");
                return null;
            case TurnAction turn:
                return turn.By(key);
            default:
                return entry.Action;
        }
    }

    private bool InPass => !_replay && Volatile.Read(ref _latest)?.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;

    /// <summary>What has to be right comes by itself until the last minute before the pass, the review when it is over; whoever has chosen something else keeps it.</summary>
    private PlotView View()
    {
        Snapshot? latest = Volatile.Read(ref _latest);
        ShownPairing? pairing = Volatile.Read(ref _pairing);
        if (pairing is { Asked: true })
        {
            return PlotView.Pairing;
        }

        PlotView usual = pairing is not null && latest is { Sky.Phase: PassPhase.Waiting, Readiness: not null } ? PlotView.Pairing
            : latest is { Sky.Phase: PassPhase.Waiting, Readiness: not null } ? PlotView.Readiness
            : latest?.Sky?.Phase is PassPhase.Over && Volatile.Read(ref _review) is not null ? PlotView.Review
            : PlotView.Sky;
        return _chosen switch
        {
            PlotView.Readiness when latest?.Readiness is null => usual,
            PlotView.Pairing when pairing is null => usual,
            { } chosen => chosen,
            null => usual,
        };
    }

    private PlotView NextView() => View() switch
    {
        PlotView.Pairing when Volatile.Read(ref _latest)?.Readiness is not null => PlotView.Readiness,
        PlotView.Sky => PlotView.Picture,
        PlotView.Picture when Volatile.Read(ref _review) is not null => PlotView.Review,
        PlotView.Picture or PlotView.Review when Volatile.Read(ref _latest)?.Readiness is not null => PlotView.Readiness,
        _ => PlotView.Sky,
    };

    private ChooseAction? Chosen(int index)
    {
        if (Volatile.Read(ref _latest) is not { Readiness: not null, Settings.Choice: { } choice })
        {
            Notice("1 to 5 choose another pass before it begins, where cockpit live has chosen this one by itself.");
            return null;
        }

        if (index >= choice.Offers.Length || index == choice.Taken)
        {
            Notice(index == choice.Taken ? $"{choice.Offers[index].Satellite} is flown already." : $"There are {choice.Offers.Length.ToString(CultureInfo.InvariantCulture)} passes to choose from.");
            return null;
        }

        return new ChooseAction(index);
    }

    private void NextTheme()
    {
        if (_noColour)
        {
            Notice("N does nothing here: colours are off (NO_COLOR, or TERM is \"dumb\").");
            return;
        }

        int next = (_shelf.Themes.IndexOf(Theme) + 1) % _shelf.Themes.Length;
        Theme = _shelf.Themes[next];
        Notice($"Theme {Theme.Name}: {Theme.Says}.");
    }

    private void Notice(string text)
    {
        _notice = text;
        _noticeAt = _time.GetTimestamp();
    }

    private sealed record StrongBox(PlayerNow? Player);
}
