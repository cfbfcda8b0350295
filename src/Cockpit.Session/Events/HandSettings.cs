namespace Cockpit.Session.Events;

/// <summary>What earlier passes told about the hand at the dish; what they did not tell is null, and taken as usual.</summary>
public sealed record HandSettings
{
    /// <summary>From a call to the begin of the move, median, seconds.</summary>
    public double? ReactionSeconds { get; init; }

    /// <summary>Size of the moves against what is called, 1 = as called.</summary>
    public double? Amount { get; init; }

    /// <summary>How many passes told it.</summary>
    public int Passes { get; init; }
}
