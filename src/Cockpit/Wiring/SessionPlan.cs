using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
using Cockpit.Session.Events;
using Cockpit.Settings;

namespace Cockpit.Wiring;

/// <summary>Everything a running session needs to know besides what its events will say.</summary>
public sealed record SessionPlan
{
    /// <summary>The first event.</summary>
    public required SessionSettings Settings { get; init; }

    /// <summary>UTC at which the session's clock starts.</summary>
    public required DateTimeOffset StartUtc { get; init; }

    /// <summary>Whether the session's clock is this computer's; false where it starts at an instant that somebody chose.</summary>
    public bool StartsNow { get; init; }

    /// <summary>Folder of all sessions.</summary>
    public string SessionsFolder { get; init; } = CockpitSettings.Usual.SessionsFolder;

    /// <summary>Folder of the recording that the session itself writes; null where it writes none.</summary>
    public string? RecordingFolder { get; init; }

    /// <summary>What journal and recording of the pass will take, bytes.</summary>
    public long NeededBytes { get; init; } = UsualJournalBytes;

    /// <summary>A journal of a quarter of an hour.</summary>
    public const long UsualJournalBytes = 5_000_000;

    /// <summary>Where the cues are heard.</summary>
    public SoundChoice Sound { get; init; } = CockpitSettings.Usual.Sound;

    /// <summary>Spoken words; null where tones are wanted.</summary>
    public SpeechClips? Speech { get; init; }

    /// <summary>The time server that the clock is compared with; null where it is not.</summary>
    public TimeServerText? Clock { get; init; }

    /// <summary>Theme of the screen.</summary>
    public string Theme { get; init; } = CockpitSettings.Usual.Theme;

    /// <summary>What the screen is drawn with.</summary>
    public Drawing Drawing { get; init; }

    /// <summary>Lines on standard output instead of the screen.</summary>
    public bool Plain { get; init; }

    /// <summary>End by itself when the pass is over, also in lines.</summary>
    public bool EndsWithPass { get; init; }

    /// <summary>Say at the end what the run cost.</summary>
    public bool Measure { get; init; }

    /// <summary>Say at the end the fingerprint of all snapshots.</summary>
    public bool Digest { get; init; }

    /// <summary>End by itself after this real time; null = do not.</summary>
    public TimeSpan? EndAfter { get; init; }
}
