using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Pipeline;

/// <summary>A named part that follows a session: journal, voice, screen and whatever else looks on.</summary>
/// <param name="Name">Name for the message when it fails.</param>
/// <param name="Happened">Gets each event, in order, on the thread that published it; must be quick. Null = does not want them.</param>
/// <param name="Shown">Gets the snapshot after each event, in order, on the thread of the fold; must be quick. Null = does not want them.</param>
public sealed record SessionPart(string Name, Action<Envelope>? Happened = null, Action<Snapshot>? Shown = null);
