using System.Collections.Immutable;

namespace Cockpit.Session.State;

/// <summary>Whether everything is ready for the pass; stands in the snapshots before AOS only.</summary>
/// <param name="Items">One for each topic that the session has, in the order of <see cref="ReadinessTopic"/>.</param>
/// <param name="SoundAsked">The test sound was played, and nobody has said yet whether it came left, right and from both.</param>
/// <param name="Directions">What the dish can be pointed at, so that it is known how far its sensor is off; null without a sensor, or where nothing can be seen.</param>
public sealed record ReadinessNow(ImmutableArray<ReadinessItem> Items, bool SoundAsked, DirectionsNow? Directions = null)
{
    /// <summary>How many are red.</summary>
    public int Red => Items.Count(item => item.State == ReadinessState.Red);

    /// <summary>How many are open.</summary>
    public int Open => Items.Count(item => item.State == ReadinessState.Open);

    /// <inheritdoc/>
    public bool Equals(ReadinessNow? other) => other is not null && SoundAsked == other.SoundAsked && Directions == other.Directions && Items.AsSpan().SequenceEqual(other.Items.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(SoundAsked, Items.Length);
}

/// <summary>One thing that has to be right before the pass.</summary>
/// <param name="Topic">Which.</param>
/// <param name="State">What is known of it.</param>
/// <param name="Found">What was found, a few words.</param>
/// <param name="ToDo">What to do about it, a few words; null where there is nothing to do.</param>
public sealed record ReadinessItem(ReadinessTopic Topic, ReadinessState State, string Found, string? ToDo = null);

/// <summary>What has to be right before a pass, most important first.</summary>
public enum ReadinessTopic
{
    /// <summary>Whether the level comes.</summary>
    Signal = 0,

    /// <summary>Whether it looks like the noise of an amplifier under an empty sky.</summary>
    Noise = 1,

    /// <summary>This computer's clock.</summary>
    Clock = 2,

    /// <summary>The age of the elements.</summary>
    Elements = 3,

    /// <summary>Room for the recording and the journal.</summary>
    Disk = 4,

    /// <summary>Whether left is heard left.</summary>
    Sound = 5,

    /// <summary>How near the sun the dish will point.</summary>
    Sun = 6,

    /// <summary>What hides the sky.</summary>
    Skyline = 7,

    /// <summary>What was told of place, dish and satellite.</summary>
    Settings = 8,

    /// <summary>The sensor on the dish; only where there is one.</summary>
    Sensor = 9,
}

/// <summary>What is known of one thing.</summary>
public enum ReadinessState
{
    /// <summary>Nothing yet, or not enough to say.</summary>
    Open = 0,

    /// <summary>It is as it has to be.</summary>
    Green = 1,

    /// <summary>It is wrong.</summary>
    Red = 2,
}
