namespace Cockpit.Core.Formats.Signal;

/// <summary>One value of a line and what the line calls it.</summary>
/// <param name="Key">The value: level, snr, cn0, df, lock, frames, ber, clip.</param>
/// <param name="Name">The word on the line, as it stands there.</param>
public readonly record struct SignalName(string Key, string Name);

/// <summary>What the values of the last line were called on it, where that is not their own name. Not for several threads at once.</summary>
public sealed class SignalNames
{
    private readonly List<SignalName> _names = [];

    /// <summary>The names, in the order of the line.</summary>
    public IReadOnlyList<SignalName> All => _names;

    /// <summary>What a value was called; null where it had its own name, or none at all.</summary>
    /// <param name="key">Name of the value.</param>
    public string? Of(string key)
    {
        foreach (SignalName name in _names)
        {
            if (string.Equals(name.Key, key, StringComparison.Ordinal))
            {
                return name.Name;
            }
        }

        return null;
    }

    /// <summary>Forgets them, for the next line.</summary>
    public void Clear() => _names.Clear();

    /// <summary>A value was read.</summary>
    internal void Add(SignalKey key, ReadOnlySpan<char> name)
    {
        string own = SignalFields.NameOf(key);
        if (!name.Equals(own, StringComparison.Ordinal))
        {
            _names.Add(new SignalName(own, name.ToString()));
        }
    }
}
