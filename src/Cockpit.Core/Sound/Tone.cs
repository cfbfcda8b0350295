namespace Cockpit.Core.Sound;

/// <summary>One note of a cue: pure data, no device.</summary>
/// <param name="StartMs">Start after the start of the cue, ms.</param>
/// <param name="LengthMs">Length with attack and release, ms.</param>
/// <param name="FrequencyHz">Fundamental, Hz.</param>
/// <param name="LevelDb">Level of the fundamental re the word level, dB (0 = the word).</param>
/// <param name="Pan">Interaural level difference, dB, positive = louder on the right, within ±15.</param>
/// <param name="Timbre">Which partials it has.</param>
public readonly record struct Tone(double StartMs, double LengthMs, double FrequencyHz, double LevelDb, double Pan, Timbre Timbre);

/// <summary>The two families of partials: plain for guidance, rich for alarms.</summary>
public enum Timbre
{
    /// <summary>Fundamental, 2nd at -9 dB, 3rd at -15 dB.</summary>
    Plain = 0,

    /// <summary>Fundamental and partials 2, 3, 4 within 15 dB of it.</summary>
    Rich = 1,
}
