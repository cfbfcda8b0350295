using Cockpit.Screen.Keys;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>What faces the operator: the screen, or lines where there is no terminal.</summary>
public interface ISessionFront : IDisposable
{
    /// <summary>The operator asked for something.</summary>
    Action<KeyAction>? KeyPressed { get; set; }

    /// <summary>A frame that shows this snapshot has gone out.</summary>
    Action<long>? Painted { get; set; }

    /// <summary>A part of the front failed, one sentence; the rest goes on.</summary>
    Action<string>? Failed { get; set; }

    /// <summary>Shows a snapshot; any thread, returns at once.</summary>
    void Show(Snapshot snapshot);

    /// <summary>Shows the review of the pass, once it is over; any thread.</summary>
    void ShowReview(SessionReview review);

    /// <summary>Shows how a phone is paired; any thread.</summary>
    /// <param name="address">The address of its page; null = there is nothing to pair.</param>
    /// <param name="asked">Somebody asked for it by key.</param>
    void ShowPairing(string? address, bool asked);

    /// <summary>Rings the bell; any thread.</summary>
    void Bell();

    /// <summary>Ends <see cref="Run"/>; any thread, the first code wins.</summary>
    void Stop(int exitCode);

    /// <summary>Stays until Stop, the operator leaves, a signal, the cancellation, or the time is up.</summary>
    /// <returns>The exit code.</returns>
    int Run(TimeSpan? atMost, CancellationToken cancellation);
}
