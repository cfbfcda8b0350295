using System.Collections.Immutable;
using System.IO.Hashing;
using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Cockpit.Session.State;

/// <summary>A fingerprint of a sequence of snapshots: two runs with the same fingerprint showed and sounded the same.</summary>
/// <remarks>
/// Every field of every snapshot goes in; numbers in their shortest exact form, so one changed bit changes the fingerprint. What
/// stays the same for many events (settings, path, holds, history) goes in by a fingerprint of its own, taken when it changes. It is
/// XXH128, because nobody is to be kept from forging it, and because the cryptographic ones are OpenSSL's on Linux: a computer without it can fly a pass.
/// </remarks>
public sealed class SnapshotDigest
{
    private readonly XxHash128 _hash = new();
    private readonly Part[] _parts = [new(), new(), new(), new(), new()];

    /// <summary>How many snapshots went in.</summary>
    public long Count { get; private set; }

    /// <summary>Adds the next snapshot.</summary>
    public void Add(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        SnapshotJson json = SnapshotJson.Default;
        _hash.Append(_parts[0].Of(snapshot.Settings, snapshot.Settings, json.SessionSettings));
        _hash.Append(_parts[1].Of(snapshot.Sky?.Track ?? [], json.ImmutableArrayPassMoment));
        _hash.Append(_parts[2].Of(snapshot.Sky?.Holds ?? [], json.ImmutableArrayHold));
        _hash.Append(_parts[3].Of(snapshot.Link.History, json.ImmutableArrayLevelPoint));
        if (snapshot.Picture is { } picture)
        {
            _hash.Append(_parts[4].Of(picture, picture, json.PictureNow));
        }

        Snapshot rest = snapshot with
        {
            Picture = null,
            Settings = null,
            Sky = snapshot.Sky is { } sky ? sky with { Track = [], Holds = [] } : null,
            Link = snapshot.Link with { History = [] },
        };
        _hash.Append(JsonSerializer.SerializeToUtf8Bytes(rest, json.Snapshot));
        Count++;
    }

    /// <summary>The fingerprint so far, hexadecimal.</summary>
    public string Current() => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <summary>The fingerprint of a part that is mostly the same object as before.</summary>
    private sealed class Part
    {
        private object? _seen;
        private byte[]? _print;

        public byte[] Of<T>(ImmutableArray<T> array, JsonTypeInfo<ImmutableArray<T>> json) =>
            Of(array, ImmutableCollectionsMarshal.AsArray(array), json);

        public byte[] Of<T>(T value, object? identity, JsonTypeInfo<T> json)
        {
            if (_print is null || !ReferenceEquals(_seen, identity))
            {
                _seen = identity;
                _print = XxHash128.Hash(JsonSerializer.SerializeToUtf8Bytes(value, json));
            }

            return _print;
        }
    }
}
