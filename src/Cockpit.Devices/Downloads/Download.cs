namespace Cockpit.Devices.Downloads;

/// <summary>What became of a download.</summary>
public abstract record Download
{
    private Download()
    {
    }

    /// <summary>A new file is there, and the old one beside it.</summary>
    /// <param name="Bytes">Its length.</param>
    public sealed record Fetched(long Bytes) : Download;

    /// <summary>The server has nothing newer.</summary>
    public sealed record Unchanged : Download;

    /// <summary>It was asked too short a time ago; nothing was sent.</summary>
    /// <param name="AgainUtc">From when on it may be asked.</param>
    public sealed record TooSoon(DateTimeOffset AgainUtc) : Download;

    /// <summary>There is no new file; the old one is as it was.</summary>
    /// <param name="Reason">One sentence without a full stop.</param>
    public sealed record Failed(string Reason) : Download;
}
