namespace Cockpit.Devices.Speakers;

/// <summary>A sound device could not be opened, or died.</summary>
/// <param name="message">What happened, one sentence without a full stop.</param>
/// <param name="mayReturn">Trying again later makes sense.</param>
/// <param name="cause">What it came from.</param>
public sealed class SoundDeviceException(string message, bool mayReturn = true, Exception? cause = null) : Exception(message, cause)
{
    /// <summary>Trying again later makes sense.</summary>
    public bool MayReturn { get; } = mayReturn;
}
