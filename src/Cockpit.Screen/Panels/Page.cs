using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>Everything a page is made of.</summary>
/// <param name="Snapshot">The moment; null before the first.</param>
/// <param name="Player">The player of a replay.</param>
/// <param name="Replay">The keys of the player work.</param>
/// <param name="Help">Help is open.</param>
/// <param name="Notice">A sentence of the screen itself.</param>
/// <param name="View">What stands in the middle.</param>
/// <param name="Review">The review of the pass; null while there is none.</param>
/// <param name="SevenBit">In seven-bit characters only.</param>
/// <param name="Pairing">How a phone is paired; null while there is nothing to pair.</param>
internal sealed record PageInput(
    Snapshot? Snapshot,
    PlayerNow? Player,
    bool Replay,
    bool Help,
    string? Notice,
    PlotView View = PlotView.Sky,
    ShownReview? Review = null,
    bool SevenBit = false,
    ShownPairing? Pairing = null)
{
    /// <summary>Whether keys turn the dish.</summary>
    public bool Steers => !Replay && Snapshot?.Desk.Head is not null;
}

/// <summary>What a page must remember of the one before, so that numbers do not flicker.</summary>
/// <param name="Move">The move as it is shown.</param>
internal sealed record PageMemory(ShownMove? Move)
{
    public static PageMemory Empty { get; } = new(Move: null);
}

/// <summary>A page and what belongs to it.</summary>
/// <param name="Page">What is shown.</param>
/// <param name="Memory">For the next page.</param>
/// <param name="Failures">One sentence for each panel that could not be made.</param>
internal sealed record ComposedPage(Block Page, PageMemory Memory, ImmutableArray<string> Failures);

/// <summary>Puts the panels together. A panel that fails leaves its place to one sentence; the others go on.</summary>
internal sealed class Page
{
    private readonly Canvas _canvas;
    private readonly ImmutableArray<string>.Builder _failures = ImmutableArray.CreateBuilder<string>();

    private Page(int width, int height) => _canvas = new Canvas(width, height);

    public const int LeastWidth = 80;

    /// <summary>A window of 24 rows, less the one that a program around this one (tmux, screen) keeps for itself.</summary>
    public const int LeastHeight = 23;

    /// <summary>The page of a moment; pure.</summary>
    public static ComposedPage Compose(PageInput input, PageMemory memory, int width, int height)
    {
        ComposedPage composed = Drawn(input, memory, width, height);
        return input.SevenBit ? composed with { Page = SevenBitPage.Of(composed.Page) } : composed;
    }

    private static ComposedPage Drawn(PageInput input, PageMemory memory, int width, int height)
    {
        bool small = width < LeastWidth || height < LeastHeight;
        if (width < SmallPage.LeastWidth || height < SmallPage.LeastHeight)
        {
            return new ComposedPage(TooSmallPanel.Of(width, height), memory, []);
        }

        Page page = new(width, height);
        if (input.Snapshot is not { } now)
        {
            page._canvas.Text(0, height / 2, Figures.Fit("  Cockpit opens the session.", width), Role.Plain);
            return new ComposedPage(page._canvas.ToBlock(), memory, []);
        }

        ShownMove? move = ShownMove.Next(memory.Move, now.Aim, now.Elapsed);
        if (input is { View: PlotView.Pairing, Pairing: { } pairing, Help: false } && PairingPage.Takes(pairing, input.SevenBit, width, height))
        {
            page.Put("code for the phone", new Place(0, 0, width, height), place => PairingPage.Of(input, now, pairing, place.Width, place.Height));
        }
        else if (small)
        {
            page.Put("small screen", new Place(0, 0, width, height), place => SmallPage.Of(input, now, move, place.Width, place.Height));
        }
        else
        {
            page.Fill(input, now, move, Layout.For(width, height, input.Replay, input is { SevenBit: true, View: PlotView.Sky or PlotView.Picture }));
        }

        return new ComposedPage(page._canvas.ToBlock(), new PageMemory(move), page._failures.ToImmutable());
    }

    private void Fill(PageInput input, Snapshot now, ShownMove? move, Layout at)
    {
        Put("banner", at.Banner, place => BannerPanel.Of(now, move, place.Width, place.Height));
        Put("strip", at.Strip, place => StripPanel.Of(now, place.Width));
        Put("clock", at.Clock, place => ClockPanel.Of(now, input.Player, input.Replay, place.Width));
        Put("next hold", at.Hold, place => HoldPanel.Of(now, place.Width));
        if (input is { View: PlotView.Review, Review: { } review, Help: false })
        {
            Put("review", at.Middle, place => ReviewPanel.Of(review, place.Width, place.Height));
        }
        else if (input is { View: PlotView.Readiness, Help: false } && now.Readiness is { } readiness)
        {
            Put("check", at.Middle, place => ReadinessPanel.Of(now, readiness, place.Width, place.Height));
        }
        else if (input is { View: PlotView.Pairing, Help: false, Pairing: { } pairing })
        {
            Put("code for the phone", at.Middle, place => PairingPanel.Of(pairing, PairingPanel.TroubleOf(now), input.SevenBit, place.Width, place.Height));
        }
        else
        {
            Middle(input, now, at);
        }

        Put("message", at.Message, place => MessagePanel.Of(now, place.Width));
        if (input is { Replay: true, Player: { } player })
        {
            Put("time line", at.Timeline, place => TimelinePanel.Of(player, place.Width));
        }

        Put("keys", at.Keys, place => KeysPanel.Of(input, place.Width));
    }

    private void Middle(PageInput input, Snapshot now, Layout at)
    {
        Put("view from behind", at.Pursuit, place => PursuitPanel.Of(now, place.Width, place.Height, input.SevenBit));
        if (input.Help)
        {
            Put("help", at.Help, place => HelpPanel.Of(input.Replay, input.Steers, place.Width, place.Height));
        }
        else
        {
            Put("sky", at.Sky, place => input.View == PlotView.Picture ? PicturePanel.Of(now, place.Width, place.Height) : SkyPanel.Of(now, place.Width, place.Height, input.SevenBit));
            Put("readings", at.Readings, place => ReadingsPanel.Of(now, place.Width, place.Height));
        }

        Put("level", at.Level, place => LevelPanel.Of(now, place.Width, place.Height, input.SevenBit));
    }

    private void Put(string name, Place place, Func<Place, Block> panel)
    {
        try
        {
            _canvas.Put(panel(place), place.Column, place.Row);
        }
#pragma warning disable CA1031 // Each panel stands for itself: one that fails must not take the aim away in the middle of a pass.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            string sentence = $"The panel \"{name}\" failed: {failure.Message.ReplaceLineEndings(" ")}";
            _failures.Add(sentence);
            _canvas.Text(place.Column, place.Row, Figures.Fit(sentence, place.Width), Role.Warning);
        }
    }
}
