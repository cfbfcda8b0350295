using System.Collections.Immutable;

namespace Cockpit.Screen.Panels;

/// <summary>How a phone is paired, as the screen shows it. It holds a secret, so it is part of no snapshot.</summary>
/// <param name="Address">The address of the page.</param>
/// <param name="Code">The same as lines of a code.</param>
/// <param name="Asked">Somebody asked for it by key; else it gives way to the aim.</param>
public sealed record ShownPairing(string Address, ImmutableArray<string> Code, bool Asked)
{
    /// <summary>The pairing by an address.</summary>
    public static ShownPairing Of(string address, bool asked) => new(address, QrCells.Of(address), asked);

    /// <summary>Columns of the code.</summary>
    public int CodeWidth => Code.Length == 0 ? 0 : Code[0].Length;

    /// <inheritdoc/>
    public bool Equals(ShownPairing? other) => other is not null && Asked == other.Asked && string.Equals(Address, other.Address, StringComparison.Ordinal);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Asked, Address.Length);
}
