namespace Cockpit.Devices.Speakers;

/// <summary>Says that a player stopped by itself, to whoever waits for it; may be told at any time, on any thread.</summary>
/// <remarks>Nothing of it is disposed: players tell their end on a thread of their own, also when nobody waits any more, and what fails there would end the program.</remarks>
internal sealed class PlaybackEnd
{
    private readonly TaskCompletionSource _told = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile Exception? _cause;

    /// <summary>It stopped.</summary>
    /// <param name="cause">Why, where it says so.</param>
    public void Tell(Exception? cause)
    {
        _cause = cause;
        _told.TrySetResult();
    }

    /// <summary>Waits until it is told, or somebody else wants the end.</summary>
    /// <param name="stop">Set by who wants the end.</param>
    /// <param name="cause">Why it stopped; null where it gave no reason, or did not stop by itself.</param>
    /// <returns>True where the player stopped by itself.</returns>
    public bool Wait(WaitHandle stop, out Exception? cause)
    {
        bool told = WaitHandle.WaitAny([stop, ((IAsyncResult)_told.Task).AsyncWaitHandle]) != 0;
        cause = told ? _cause : null;
        return told;
    }
}
