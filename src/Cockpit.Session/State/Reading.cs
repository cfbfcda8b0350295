namespace Cockpit.Session.State;

/// <summary>What an age says about a value.</summary>
public enum Freshness
{
    /// <summary>It speaks of now.</summary>
    Fresh = 0,

    /// <summary>It is still shown, and marked.</summary>
    Stale = 1,

    /// <summary>It says nothing about now.</summary>
    Absent = 2,
}

/// <summary>A value that came from outside, with its age; the only place where "how old?" is answered.</summary>
/// <typeparam name="T">What was read.</typeparam>
/// <param name="Value">The value as it came.</param>
/// <param name="Age">Real time since it came, not negative: the sender lives in real time, whatever the rate of the session.</param>
public readonly record struct Reading<T>(T Value, TimeSpan Age)
{
    /// <summary>What the age says.</summary>
    public Freshness Freshness => Ages.Judge(Age);

    /// <summary>Whether it speaks of now.</summary>
    public bool IsFresh => Freshness == Freshness.Fresh;
}

/// <summary>The ages from which on a value is stale and absent; the same for every feed.</summary>
public static class Ages
{
    /// <summary>A value older than this is stale; real time.</summary>
    public static readonly TimeSpan StaleAfter = TimeSpan.FromSeconds(2);

    /// <summary>A value older than this is absent; real time.</summary>
    public static readonly TimeSpan AbsentAfter = TimeSpan.FromSeconds(10);

    /// <summary>Judges an age in real time.</summary>
    public static Freshness Judge(TimeSpan age) =>
        age <= StaleAfter ? Freshness.Fresh : age <= AbsentAfter ? Freshness.Stale : Freshness.Absent;
}
