using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>Things of known direction that the dish can be pointed at before the pass, so that it is known how far the sensor on it is off.</summary>
/// <param name="All">Those that can be seen now; never empty.</param>
/// <param name="Index">Which of them is asked for.</param>
public sealed record DirectionsNow(ImmutableArray<DirectionOffer> All, int Index)
{
    /// <summary>The one that is asked for.</summary>
    public DirectionOffer Chosen => All[Index];

    /// <inheritdoc/>
    public bool Equals(DirectionsNow? other) => other is not null && Index == other.Index && All.AsSpan().SequenceEqual(other.All.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Index, All.Length);
}

/// <summary>One of them.</summary>
/// <param name="What">What it is, for people: "the moon".</param>
/// <param name="Azimuth">Its true azimuth, in [0°, 360°).</param>
/// <param name="Elevation">Its elevation; null where only its bearing is known.</param>
/// <param name="Spread">How far a dish that was pointed at it by eye may stand beside it on each axis, one standard deviation.</param>
/// <param name="How">How to point at it, a few words.</param>
public sealed record DirectionOffer(string What, Angle Azimuth, Angle? Elevation, Angle Spread, string How);
