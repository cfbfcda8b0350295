namespace Cockpit.Core.Formats.Signal;

/// <summary>What receivers call the values that steer, and how they say yes and no; any case.</summary>
/// <remarks>Collected from common practice, no source.</remarks>
internal static class SignalVocabulary
{
    private static readonly Dictionary<string, SignalKey> Keys = new(StringComparer.OrdinalIgnoreCase)
    {
        ["t"] = SignalKey.Time, ["time"] = SignalKey.Time, ["utc"] = SignalKey.Time, ["timestamp"] = SignalKey.Time,
        ["level"] = SignalKey.Level, ["lvl"] = SignalKey.Level, ["power"] = SignalKey.Level, ["pwr"] = SignalKey.Level, ["rssi"] = SignalKey.Level,
        ["signal"] = SignalKey.Level, ["strength"] = SignalKey.Level, ["level_db"] = SignalKey.Level, ["level_dbfs"] = SignalKey.Level, ["peak"] = SignalKey.Level,
        ["snr"] = SignalKey.Snr, ["s/n"] = SignalKey.Snr, ["sn"] = SignalKey.Snr, ["snr_db"] = SignalKey.Snr, ["es/n0"] = SignalKey.Snr, ["esn0"] = SignalKey.Snr,
        ["es/no"] = SignalKey.Snr, ["eb/n0"] = SignalKey.Snr, ["ebn0"] = SignalKey.Snr, ["eb/no"] = SignalKey.Snr, ["mer"] = SignalKey.Snr, ["cnr"] = SignalKey.Snr,
        ["sinr"] = SignalKey.Snr, ["c/n"] = SignalKey.Snr,
        ["cn0"] = SignalKey.Cn0, ["c/n0"] = SignalKey.Cn0, ["c/no"] = SignalKey.Cn0, ["cno"] = SignalKey.Cn0, ["cn0_dbhz"] = SignalKey.Cn0,
        ["df"] = SignalKey.Offset, ["offset"] = SignalKey.Offset, ["offset_hz"] = SignalKey.Offset, ["freq_offset"] = SignalKey.Offset, ["frequency_offset"] = SignalKey.Offset,
        ["carrier_offset"] = SignalKey.Offset, ["afc"] = SignalKey.Offset,
        ["lock"] = SignalKey.Lock, ["locked"] = SignalKey.Lock, ["sync"] = SignalKey.Lock, ["synced"] = SignalKey.Lock, ["synchronised"] = SignalKey.Lock,
        ["synchronized"] = SignalKey.Lock, ["state"] = SignalKey.Lock, ["status"] = SignalKey.Lock, ["deframer"] = SignalKey.Lock, ["demod"] = SignalKey.Lock,
        ["demodulator"] = SignalKey.Lock, ["pll"] = SignalKey.Lock,
        ["frames"] = SignalKey.Frames, ["frame_count"] = SignalKey.Frames, ["packets"] = SignalKey.Frames, ["lines"] = SignalKey.Frames, ["lines_ok"] = SignalKey.Frames,
        ["ber"] = SignalKey.BitErrors,
        ["clip"] = SignalKey.Clipped, ["clipped"] = SignalKey.Clipped, ["clipping"] = SignalKey.Clipped, ["clip_share"] = SignalKey.Clipped, ["overload"] = SignalKey.Clipped,
    };

    private static readonly HashSet<string> Yes = new(["locked", "lock", "yes", "true", "on", "1", "ok", "synced", "sync", "synchronised", "synchronized", "good"], StringComparer.OrdinalIgnoreCase);
    private static readonly HashSet<string> No = new(["unlocked", "nolock", "no", "false", "off", "0", "lost", "none", "searching", "search", "unsynced", "nosync", "unsynchronised", "unsynchronized", "not", "bad"], StringComparer.OrdinalIgnoreCase);

    // Words that turn the next word into another quantity: a noise level is no level.
    private static readonly HashSet<string> Other = new(["noise", "floor", "gain", "tx", "target", "required", "min", "max", "tuner", "battery", "cpu", "disk", "audio"], StringComparer.OrdinalIgnoreCase);

    /// <summary>The key that a word means; unknown words are unknown keys.</summary>
    public static SignalKey KeyOf(ReadOnlySpan<char> word) =>
        Keys.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(word, out SignalKey key) ? key : SignalKey.Unknown;

    /// <summary>Whether a word means locked (true) or not (false); null when it means neither.</summary>
    public static bool? LockOf(ReadOnlySpan<char> word) =>
        Yes.GetAlternateLookup<ReadOnlySpan<char>>().Contains(word) ? true : No.GetAlternateLookup<ReadOnlySpan<char>>().Contains(word) ? false : null;

    /// <summary>Whether the word after it means something else than it says.</summary>
    public static bool IsOther(ReadOnlySpan<char> word) => Other.GetAlternateLookup<ReadOnlySpan<char>>().Contains(word);

    /// <summary>What a number is worth in the unit that follows it.</summary>
    /// <param name="key">What it belongs to; a unit of dB-Hz makes a level a C/N0.</param>
    /// <param name="unit">The word after the number; empty = none.</param>
    /// <param name="factor">What the number is multiplied with.</param>
    /// <returns>False when the unit does not belong to the key: the number is another quantity.</returns>
    public static bool Fits(ref SignalKey key, ReadOnlySpan<char> unit, out double factor)
    {
        factor = 1.0;
        bool decibels = Is(unit, "db") || Is(unit, "dbm") || Is(unit, "dbfs") || Is(unit, "dbc");
        bool density = Is(unit, "dbhz") || Is(unit, "db-hz") || Is(unit, "db/hz");
        bool other = Is(unit, "v") || Is(unit, "mv") || Is(unit, "w") || Is(unit, "s") || Is(unit, "ms") || Is(unit, "deg") || Is(unit, "hz") || Is(unit, "khz") || Is(unit, "mhz") || Is(unit, "%");
        switch (key)
        {
            case SignalKey.Level or SignalKey.Snr or SignalKey.Cn0:
                key = density ? SignalKey.Cn0 : key;
                return decibels || density || !other;
            case SignalKey.Offset:
                factor = Is(unit, "khz") ? 1e3 : Is(unit, "mhz") ? 1e6 : 1.0;
                return !decibels && !density && !Is(unit, "%") && !Is(unit, "s") && !Is(unit, "ms");
            case SignalKey.Clipped or SignalKey.BitErrors:
                factor = Is(unit, "%") ? 0.01 : 1.0;
                return !decibels && !density;
            default:
                return true;
        }
    }

    /// <summary>Whether a word is one of the units that are known.</summary>
    public static bool IsUnit(ReadOnlySpan<char> word) =>
        Is(word, "db") || Is(word, "dbm") || Is(word, "dbfs") || Is(word, "dbc") || Is(word, "dbhz") || Is(word, "db-hz") || Is(word, "hz") || Is(word, "khz") || Is(word, "mhz") || Is(word, "%");

    private static bool Is(ReadOnlySpan<char> text, string word) => text.Equals(word, StringComparison.OrdinalIgnoreCase);
}
