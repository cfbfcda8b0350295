using System.Collections.Immutable;
using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>What is weighed against picture lines.</summary>
public sealed record SteeringCost
{
    /// <summary>A move costs so many lines while the belief is narrow: the hand tires.</summary>
    public double Move { get; init; } = 1.0;

    /// <summary>A move costs so many while it is wide: each adds errors of its own to what is not known, and listening is often better.</summary>
    public double Probe { get; init; } = 3.0;

    /// <summary>Reading the compass costs so many more.</summary>
    public double Compass { get; init; } = 1.0;

    /// <summary>Staying and moving are compared so far ahead while the belief is narrow, s.</summary>
    public double StayAhead { get; init; } = 14.0;

    /// <summary>Above this spread the belief of an exact hand is wide: probing moves are tried too, and what they would tell is counted, degrees.</summary>
    public double WideDegrees { get; init; } = 1.3;

    /// <summary>So much later for each degree that any move of the hand errs: what is learnt must be worth more than the move spoils.</summary>
    public double WideForEachError { get; init; } = 1.5;

    /// <summary>Points of the track that a move may lead to, s after the move.</summary>
    public ImmutableArray<double> TrackPoints { get; init; } = [0.0, 4.0, 8.0, 12.0, 16.0, 22.0, 28.0];

    /// <summary>What a line before the begin of the pass counts.</summary>
    public double Before { get; init; }

    /// <summary>The same while a sensor tells every move: what is learnt from moves before the pass costs no line, and lasts.</summary>
    public double BeforeSeen { get; init; } = 0.3;

    /// <summary>The same while a sensor tells every move: what the hand errs spoils nothing then.</summary>
    public double WideSeen { get; init; } = 1.8;

    /// <summary>Above this spread the belief is wide, degrees.</summary>
    public double WideFrom(DishEstimate estimate)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        return estimate.SeesMoves ? WideSeen : WideDegrees + (WideForEachError * estimate.Start.Hand.FloorErrorDegrees);
    }

    /// <summary>The compass is thought of when staying loses more lines than this.</summary>
    public double CompassFrom { get; init; } = 12.0;
}
