using Cockpit.Core.Estimate;
using Cockpit.Core.Signal;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What is known about the dish and the scale of its level; all times are session time.</summary>
public sealed record EstimateMemory
{
    /// <summary>Nothing known yet.</summary>
    public static EstimateMemory Empty { get; } = new();

    /// <summary>The belief; null without a pass. It changes in place: its hypotheses are too many to be copied for every event.</summary>
    public DishEstimate? Dish { get; init; }

    /// <summary>UTC minus session time that the belief's table of the pass was made for.</summary>
    public DateTimeOffset Zero { get; init; }

    /// <summary>Whether this event closed a block of the level.</summary>
    public bool Closed { get; init; }

    /// <summary>When the operator last said "peaked" and was believed.</summary>
    public TimeSpan? MarkedAt { get; init; }

    /// <summary>When a mark was last refused.</summary>
    public TimeSpan? RefusedAt { get; init; }

    /// <summary>Measured level minus C/N0 by the budget at the best of the marks, dB; null before the first.</summary>
    public double? MarkGainDb { get; init; }

    /// <summary>The quantity that it belongs to.</summary>
    public SteeringQuantity? MarkQuantity { get; init; }

    /// <summary>The best smoothed level since the last move, and of late, dB; null without a level.</summary>
    public double? BestDb { get; init; }

    /// <summary>When it was measured.</summary>
    public TimeSpan BestAt { get; init; }

    /// <summary>An answer to the operator; null when there is none.</summary>
    public Message? Notice { get; init; }

    /// <summary>When it was given.</summary>
    public TimeSpan NoticeAt { get; init; }
}
