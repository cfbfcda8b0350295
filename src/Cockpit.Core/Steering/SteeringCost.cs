using System.Collections.Immutable;

namespace Cockpit.Core.Steering;

/// <summary>What is weighed against picture lines.</summary>
public sealed record SteeringCost
{
    /// <summary>A move costs so many lines: the hand tires, and a move may go wrong.</summary>
    public double Move { get; init; } = 1.5;

    /// <summary>Reading the compass costs so many more.</summary>
    public double Compass { get; init; } = 1.0;

    /// <summary>Staying is looked at so far ahead, s.</summary>
    public double StayAhead { get; init; } = 14.0;

    /// <summary>Above this spread of the belief probing moves are tried too, degrees.</summary>
    public double WideDegrees { get; init; } = 3.5;

    /// <summary>Points of the track that a move may lead to, s after the move.</summary>
    public ImmutableArray<double> TrackPoints { get; init; } = [0.0, 4.0, 8.0, 12.0, 16.0, 22.0, 28.0];

    /// <summary>What a line before the begin of the pass counts.</summary>
    public double Before { get; init; }

    /// <summary>The compass is thought of when staying loses more lines than this.</summary>
    public double CompassFrom { get; init; } = 12.0;
}
