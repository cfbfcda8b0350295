using Cockpit.Core.Aim;

namespace Cockpit.Core.Estimate;

/// <summary>What quantity the level is.</summary>
public enum LevelKind
{
    /// <summary>Signal to noise ratio, dB.</summary>
    SignalToNoise = 0,

    /// <summary>Carrier to noise density, dB-Hz.</summary>
    CarrierToNoiseDensity = 1,

    /// <summary>Power, signal and noise together, dB relative to something constant.</summary>
    Power = 2,
}

/// <summary>What an estimate starts from.</summary>
public sealed record EstimateSetup
{
    /// <summary>What the hand is taken to be.</summary>
    public required HandModel Hand { get; init; }

    /// <summary>In which axes it moves the dish.</summary>
    public required Mount Mount { get; init; }

    /// <summary>Half-power beamwidth, degrees.</summary>
    public required double BeamWidth { get; init; }

    /// <summary>SNR at the threshold of the picture, dB, as far as known; the estimate learns the rest.</summary>
    public double SnrAtThreshold { get; init; } = 5.0;

    /// <summary>C/N0 at the threshold, dB-Hz.</summary>
    public double Cn0AtThreshold { get; init; } = 65.0;

    /// <summary>Session time that passes in a second of real time: a sensor lives in that.</summary>
    public double Speed { get; init; } = 1.0;

    /// <summary>How many hypotheses.</summary>
    public int Particles { get; init; } = 1500;

    /// <summary>Seed of the hypotheses.</summary>
    public ulong Seed { get; init; } = 1;
}
