namespace Cockpit.Session.Events;

/// <summary>A fact of the session: immutable, past tense, raw enough to be interpreted again.</summary>
public abstract record SessionEvent;

/// <summary>An event with its place in the one order of the session.</summary>
/// <param name="Sequence">From 1, without gaps.</param>
/// <param name="Elapsed">Monotonic session time since the session was opened.</param>
/// <param name="Utc">The same moment in UTC (offset zero).</param>
/// <param name="Source">Who published it: a feed's name, "clock", "keys", "program".</param>
/// <param name="Event">What happened.</param>
public sealed record Envelope(long Sequence, TimeSpan Elapsed, DateTimeOffset Utc, string Source, SessionEvent Event);
