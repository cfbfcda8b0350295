namespace Cockpit.Session.Events;

/// <summary>A feed that belongs to a session.</summary>
/// <param name="Name">Its name, for people and in its events; no two feeds of a session have the same.</param>
/// <param name="Role">What it is for.</param>
public sealed record FeedSettings(string Name, FeedRole Role)
{
    /// <summary>The level of the signal, under its usual name.</summary>
    public static FeedSettings Signal { get; } = new(Sources.Signal, FeedRole.Signal);

    /// <summary>A sensor on the dish, under its usual name.</summary>
    public static FeedSettings Pointing { get; } = new(Sources.Pointing, FeedRole.Pointing);
}

/// <summary>What a feed is for; it decides what its loss means.</summary>
public enum FeedRole
{
    /// <summary>Shown with its health, and nothing more; also a role that only a newer program knows.</summary>
    Other = 0,

    /// <summary>The level of the signal: without it nothing says that the dish is off.</summary>
    Signal = 1,

    /// <summary>Place and time: wanted before the pass; in it nothing hangs on them.</summary>
    Place = 2,

    /// <summary>Where the dish points: a help that is never needed.</summary>
    Pointing = 3,
}
