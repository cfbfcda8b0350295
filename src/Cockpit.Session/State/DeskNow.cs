namespace Cockpit.Session.State;

/// <summary>State of the desk: sound, journal, switches, clock, place.</summary>
/// <param name="Speaker">Name of the sound device.</param>
/// <param name="SpeakerTrouble">Why it is not the wanted one; null when all is well.</param>
/// <param name="JournalTrouble">Why the journal is not written; null when all is well.</param>
/// <param name="Muted">Guidance muted by the operator.</param>
/// <param name="VolumeDb">Volume set by the operator re the default, dB.</param>
/// <param name="Clock">What is known of this computer's clock; null where it was not compared.</param>
/// <param name="Place">Where a receiver says that this is; null where none was heard.</param>
/// <param name="Head">What the scales of a head that is turned by keys read; null outside such a rehearsal.</param>
public sealed record DeskNow(string? Speaker, string? SpeakerTrouble, string? JournalTrouble, bool Muted, double VolumeDb, ClockNow? Clock = null, PlaceNow? Place = null, HeadNow? Head = null);

/// <summary>What is known of the clock that the predictions go by.</summary>
/// <param name="Against">What it was compared with, for people.</param>
/// <param name="Behind">What is to be added to it; positive = it is behind.</param>
/// <param name="Doubt">How far that may be off.</param>
public sealed record ClockNow(string Against, TimeSpan Behind, TimeSpan Doubt)
{
    /// <summary>Half a degree near the zenith, at 830 km: a twentieth of a narrow beam. What is wrong by more is told.</summary>
    public static readonly TimeSpan Tolerance = TimeSpan.FromSeconds(1);

    /// <summary>Whether the clock is wrong, beyond doubt, by more than is tolerated.</summary>
    public bool IsWrong => Behind.Duration() > Tolerance && CanBeCorrected;

    /// <summary>Whether a correction would make it better: it is wrong by more than the comparison may be off.</summary>
    public bool CanBeCorrected => Behind.Duration() > Doubt;
}
