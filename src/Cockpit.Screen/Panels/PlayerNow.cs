namespace Cockpit.Screen.Panels;

/// <summary>Where the player of a replay is.</summary>
/// <param name="Rate">Session time per real time; 1 = as it was.</param>
/// <param name="Paused">It stands still.</param>
/// <param name="Position">Elapsed session time.</param>
/// <param name="Length">Elapsed session time of the last event.</param>
public readonly record struct PlayerNow(double Rate, bool Paused, TimeSpan Position, TimeSpan Length);
