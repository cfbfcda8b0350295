namespace Cockpit.Session.Events;

/// <summary>The operator's keys that a record of a feed may carry, so that a remote button or another program can press them.</summary>
public static class RemoteKeys
{
    /// <summary>The key of a word as it stands in a record.</summary>
    /// <param name="word">"peaked", "moved", "not-moved", "search"; null for none.</param>
    /// <returns>Null for any other word.</returns>
    public static OperatorKey? Of(string? word) => word switch
    {
        "peaked" => OperatorKey.Peaked,
        "moved" => OperatorKey.Moved,
        "not-moved" => OperatorKey.NotMoved,
        "search" => OperatorKey.Search,
        _ => null,
    };
}
