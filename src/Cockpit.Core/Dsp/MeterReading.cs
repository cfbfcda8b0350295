namespace Cockpit.Core.Dsp;

/// <summary>What is wrong between dish and converter, as far as the samples tell.</summary>
[Flags]
public enum MeterWarnings
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The floor fell by 6 dB or more within a second and stayed there: is the amplifier off?</summary>
    AmplifierOff = 1,

    /// <summary>The samples move by less than two steps of the converter: turn the gain up.</summary>
    GainTooLow = 2,

    /// <summary>More than one component in a hundred is at a rail, for three tenths of a second: turn the gain down.</summary>
    Overload = 4,

    /// <summary>The DC is larger than everything else: tune beside the signal.</summary>
    Dc = 8,
}

/// <summary>What was measured in one window of 100 ms.</summary>
/// <param name="FirstSample">Number of the window's first sample, from 0.</param>
/// <param name="Samples">Its length.</param>
/// <param name="LevelDbfs">Mean of I^2 + Q^2, full scale 1 for each component; null where every sample is zero.</param>
/// <param name="NoiseDbfs">The noise floor, as power in the whole band; null where every sample is zero.</param>
/// <param name="SnrDb">Es/N0 of the whole wave; null where there is no signal, or one without symbols.</param>
/// <param name="CarrierToNoiseDbHz">C/N0; null where there is no signal.</param>
/// <param name="OffsetHz">Carrier from the centre; null where there is none.</param>
/// <param name="ClipShare">Components at a rail, 0 to 1.</param>
/// <param name="DcDbfs">Power of the DC; null where there is none.</param>
/// <param name="Kind">What signal it is.</param>
/// <param name="Confidence">How sure that is, 0 to 1.</param>
/// <param name="SymbolRate">Symbols a second of the kind; 0 where it has none.</param>
/// <param name="Locked">Whether a frame was locked from the start of the window to its end.</param>
/// <param name="LinesReceived">Frames received since the first sample.</param>
/// <param name="LinesLost">Frames lost since the first lock.</param>
/// <param name="Warnings">What is wrong.</param>
public readonly record struct MeterReading(
    long FirstSample,
    int Samples,
    double? LevelDbfs,
    double? NoiseDbfs,
    double? SnrDb,
    double? CarrierToNoiseDbHz,
    double? OffsetHz,
    double ClipShare,
    double? DcDbfs,
    SignalKind Kind,
    double Confidence,
    double SymbolRate,
    bool Locked,
    long LinesReceived,
    long LinesLost,
    MeterWarnings Warnings);
