namespace Cockpit.Session.State;

/// <summary>State of the desk: sound, journal, switches.</summary>
/// <param name="Speaker">Name of the sound device.</param>
/// <param name="SpeakerTrouble">Why it is not the wanted one; null when all is well.</param>
/// <param name="JournalTrouble">Why the journal is not written; null when all is well.</param>
/// <param name="Muted">Guidance muted by the operator.</param>
/// <param name="VolumeDb">Volume set by the operator re the default, dB.</param>
public sealed record DeskNow(string? Speaker, string? SpeakerTrouble, string? JournalTrouble, bool Muted, double VolumeDb);
