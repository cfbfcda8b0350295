using Cockpit.Reports;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>The screen in the terminal.</summary>
/// <param name="options">How it is set up.</param>
public sealed class ScreenFront(ScreenOptions options) : ISessionFront
{
    private readonly CockpitScreen _screen = new(options);

    /// <summary>Run ended because the screen failed; the terminal is restored.</summary>
    public bool Broken => _screen.Broken;

    /// <inheritdoc/>
    public Action<KeyAction>? KeyPressed
    {
        get => _screen.KeyPressed;
        set => _screen.KeyPressed = value;
    }

    /// <inheritdoc/>
    public Action<long>? Painted
    {
        get => _screen.Painted;
        set => _screen.Painted = value;
    }

    /// <inheritdoc/>
    public Action<string>? Failed
    {
        get => _screen.Failed;
        set => _screen.Failed = value;
    }

    /// <inheritdoc/>
    public void Show(Snapshot snapshot) => _screen.Show(snapshot);

    /// <summary>Shows where the player of a replay is.</summary>
    public void ShowPlayer(PlayerNow player) => _screen.ShowPlayer(player);

    /// <inheritdoc/>
    public void ShowReview(SessionReview review)
    {
        string[] first = [.. ReviewSummary.Lines(review, brief: true)];
        _screen.ShowReview(new ShownReview([.. first, .. ReviewSummary.Lines(review).Except(first, StringComparer.Ordinal)], review.LineStates));
    }

    /// <inheritdoc/>
    public void ShowPairing(string? address, bool asked) => _screen.ShowPairing(address is null ? null : ShownPairing.Of(address, asked));

    /// <summary>Shows a sentence for a few seconds; only as the answer to a key.</summary>
    public void Say(string sentence) => _screen.Say(sentence);

    /// <inheritdoc/>
    public void Bell() => _screen.Bell();

    /// <inheritdoc/>
    public void Stop(int exitCode) => _screen.Stop(exitCode);

    /// <inheritdoc/>
    public int Run(TimeSpan? atMost, CancellationToken cancellation)
    {
        using CancellationTokenRegistration cancelled = cancellation.Register(() => _screen.Stop(Commands.CommandRoot.Failed));
        using ITimer? timer = atMost is { } span
            ? TimeProvider.System.CreateTimer(_ => _screen.Stop(0), null, span, Timeout.InfiniteTimeSpan)
            : null;
        return _screen.Run();
    }

    /// <inheritdoc/>
    public void Dispose() => _screen.Dispose();
}
