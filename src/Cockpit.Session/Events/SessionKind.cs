namespace Cockpit.Session.Events;

/// <summary>What a session is: how its signal and its hand came about.</summary>
public enum SessionKind
{
    /// <summary>A kind that only another program knows.</summary>
    Other = 0,

    /// <summary>A real receiver and a real hand.</summary>
    Live = 1,

    /// <summary>The invented pass of the demo.</summary>
    Demo = 2,

    /// <summary>A pass flown by the simulation.</summary>
    Simulated = 3,

    /// <summary>A pass that is flown to practise: simulated signal and dish, steered by the keys or by a simulated hand.</summary>
    Rehearsal = 4,
}
