namespace Cockpit.Session.State;

/// <summary>What a move word says, and all that it says.</summary>
/// <param name="Side">Sideways: 0 not said, 1 a little right, 2 right, 3 far right; negative = left.</param>
/// <param name="Height">Upwards: 0 not said, 1 a little up, 2 far up; negative = down.</param>
/// <param name="Pressing">Lines are being lost: the word comes twice.</param>
public readonly record struct MoveMeaning(int Side, int Height, bool Pressing);
