using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>Where the voice is heard. It never throws into the program: what fails is said as an event, and the rest goes on.</summary>
public interface ISpeaker : IAsyncDisposable
{
    /// <summary>What is heard at present: "ALSA default", "WASAPI", "bell", "silent".</summary>
    string Device { get; }

    /// <summary>How far the stream has fallen behind the clock, by stalls and drift; zero without a stream.</summary>
    TimeSpan Late { get; }

    /// <summary>Called when a cue starts; those that render samples need nothing from it. Returns at once.</summary>
    /// <param name="cue">The cue.</param>
    void Announce(Cue cue);
}
