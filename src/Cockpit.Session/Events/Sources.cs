namespace Cockpit.Session.Events;

/// <summary>Names of the parts that publish events.</summary>
public static class Sources
{
    /// <summary>The program itself: opening, closing, failures.</summary>
    public const string Program = "program";

    /// <summary>The session's clock.</summary>
    public const string Clock = "clock";

    /// <summary>The operator's keys.</summary>
    public const string Keys = "keys";

    /// <summary>The signal feed.</summary>
    public const string Signal = "signal";

    /// <summary>What tunes the receiver.</summary>
    public const string Tune = "tune";

    /// <summary>The receiver of navigation satellites.</summary>
    public const string Place = "place";

    /// <summary>The sensor on the dish.</summary>
    public const string Pointing = "pointing";

    /// <summary>The phone on the dish.</summary>
    public const string Phone = "phone";

    /// <summary>The rehearsal: simulated satellite, signal and hand.</summary>
    public const string Rehearsal = "rehearsal";
}
