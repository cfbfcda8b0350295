using System.Collections.Immutable;

namespace Cockpit.Session.Events;

/// <summary>What the program knows of how a session was set up, for the look at everything before the pass.</summary>
/// <param name="Mistakes">Mistakes in the file of the settings that were passed over.</param>
/// <param name="Missing">What nobody told, a word each; a usual value was taken for it.</param>
/// <param name="ClockIsChosen">The session began at an instant that somebody chose: there is no clock to compare.</param>
public sealed record SetUpFacts(int Mistakes, ImmutableArray<string> Missing, bool ClockIsChosen);
