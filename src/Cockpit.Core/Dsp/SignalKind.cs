namespace Cockpit.Core.Dsp;

/// <summary>What kind of signal is in the band.</summary>
public enum SignalKind
{
    /// <summary>None that is known.</summary>
    None = 0,

    /// <summary>A carrier without modulation.</summary>
    Carrier = 1,

    /// <summary>Split-phase (biphase-L) phase modulation, 665.4 kb/s.</summary>
    SplitPhase = 2,

    /// <summary>Coded QPSK, 2.3333 or 2.8 Msym/s.</summary>
    Qpsk = 3,
}

/// <summary>Names of kinds.</summary>
public static class SignalKinds
{
    /// <summary>The name, in files and for people.</summary>
    public static string Name(this SignalKind kind) => kind switch
    {
        SignalKind.Carrier => "carrier",
        SignalKind.SplitPhase => "split-phase",
        SignalKind.Qpsk => "qpsk",
        _ => "none",
    };
}
