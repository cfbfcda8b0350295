using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Why a move is called.</summary>
public enum CallReason
{
    /// <summary>The satellite moves on.</summary>
    Follow = 0,

    /// <summary>The level says that the dish is beside the satellite.</summary>
    Correct = 1,

    /// <summary>The signal is lost: the most probable place.</summary>
    Search = 2,

    /// <summary>A small move would tell the side.</summary>
    Probe = 3,

    /// <summary>No level comes: by plan.</summary>
    Plan = 4,

    /// <summary>The sun is in the way: around it.</summary>
    Sun = 5,
}

/// <summary>A move that was called.</summary>
/// <param name="At">When, seconds.</param>
/// <param name="Move">Which.</param>
/// <param name="Reason">Why.</param>
/// <param name="Before">What was believed about the dish then: the amounts are counted from there.</param>
public readonly record struct Call(double At, Candidate Move, CallReason Reason, DishBelief Before);
