using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>What is remembered of the things that have to be right before a pass.</summary>
/// <param name="Sound">What became of the test sound.</param>
/// <param name="Disk">The last look at the disk; null before the first.</param>
/// <param name="Direction">Which of the known directions is asked for.</param>
public sealed record ReadinessMemory(SoundTest Sound, DiskMeasured? Disk, int Direction = 0)
{
    /// <summary>Nothing is known.</summary>
    public static ReadinessMemory Empty { get; } = new(SoundTest.NotYet, null);
}

/// <summary>What became of the test sound.</summary>
public enum SoundTest
{
    /// <summary>It was not played.</summary>
    NotYet = 0,

    /// <summary>It was played, and nobody has said how it came.</summary>
    Played = 1,

    /// <summary>It came left, right and from both.</summary>
    Heard = 2,

    /// <summary>It did not.</summary>
    NotHeard = 3,
}
