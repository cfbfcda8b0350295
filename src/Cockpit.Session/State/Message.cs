namespace Cockpit.Session.State;

/// <summary>The line of messages.</summary>
/// <param name="Text">One sentence.</param>
/// <param name="Weight">How much it matters.</param>
/// <param name="SinceUtc">Since when it is shown.</param>
public sealed record Message(string Text, MessageWeight Weight, DateTimeOffset SinceUtc)
{
    /// <summary>It says why a key did nothing.</summary>
    public bool IsRefusal { get; init; }
}

/// <summary>How much a message matters.</summary>
public enum MessageWeight
{
    /// <summary>Good to know.</summary>
    Advisory = 0,

    /// <summary>Needs attention soon.</summary>
    Caution = 1,

    /// <summary>Needs action now.</summary>
    Warning = 2,
}
