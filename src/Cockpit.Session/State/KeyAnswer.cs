using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>What became of a key; stands in the snapshot of its event only.</summary>
/// <param name="Key">The key; for the one key of the operator what it stood for.</param>
/// <param name="Taken">Whether it did anything.</param>
/// <param name="Words">What it did, or why it did nothing: one sentence.</param>
public sealed record KeyAnswer(OperatorKey Key, bool Taken, string Words);
