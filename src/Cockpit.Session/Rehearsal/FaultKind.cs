namespace Cockpit.Session.Rehearsal;

/// <summary>What can be made to go wrong in a simulated pass.</summary>
public enum FaultKind
{
    /// <summary>A nudge is done much too late.</summary>
    Late = 0,

    /// <summary>A nudge goes much too far or not nearly far enough.</summary>
    Amount = 1,

    /// <summary>A nudge goes the wrong way.</summary>
    WrongWay = 2,

    /// <summary>The satellite is found late.</summary>
    NotFound = 3,

    /// <summary>Someone knocks the dish.</summary>
    Knock = 4,

    /// <summary>Something passes through the beam.</summary>
    Fade = 5,

    /// <summary>Trees at the end of the pass.</summary>
    Skyline = 6,

    /// <summary>The dish is too small for the ends of the pass.</summary>
    Weak = 7,

    /// <summary>The receiver clips.</summary>
    Overload = 8,

    /// <summary>Receiver and decoder hang for a while.</summary>
    FeedSilent = 9,

    /// <summary>The decoder counts nothing while signal and lock are good.</summary>
    RecorderStopped = 10,

    /// <summary>The satellite is silent.</summary>
    NotTransmitting = 11,
}

/// <summary>One fault of a simulated pass.</summary>
/// <param name="Kind">Which.</param>
/// <param name="At">When it begins, seconds after the rise; for a nudge: the first nudge from then on.</param>
/// <param name="Seconds">How long it lasts; for a late nudge: how late.</param>
/// <param name="Amount">dB, degrees or share, as the kind wants.</param>
public readonly record struct Fault(FaultKind Kind, double At, double Seconds, double Amount);
