using System.Collections.Immutable;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Cockpit.Session.State;

/// <summary>A fingerprint of a sequence of snapshots: two runs with the same fingerprint showed and sounded the same.</summary>
/// <remarks>
/// Every field of every snapshot goes in; numbers in their shortest exact form, so one changed bit changes the fingerprint. What
/// stays the same for many events (settings, path, holds, history) goes in by a fingerprint of its own, taken when it changes.
/// On Linux the hash is that of the system's OpenSSL, and a program that asks for it dies where there is none: nothing is asked before the first snapshot.
/// </remarks>
public sealed class SnapshotDigest : IDisposable
{
    private readonly Lazy<IncrementalHash> _hash = new(() => IncrementalHash.CreateHash(HashAlgorithmName.SHA256));
    private readonly Part[] _parts = [new(), new(), new(), new(), new()];

    /// <summary>How many snapshots went in.</summary>
    public long Count { get; private set; }

    /// <summary>Adds the next snapshot.</summary>
    public void Add(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        SnapshotJson json = SnapshotJson.Default;
        IncrementalHash hash = _hash.Value;
        hash.AppendData(_parts[0].Of(snapshot.Settings, snapshot.Settings, json.SessionSettings));
        hash.AppendData(_parts[1].Of(snapshot.Sky?.Track ?? [], json.ImmutableArrayPassMoment));
        hash.AppendData(_parts[2].Of(snapshot.Sky?.Holds ?? [], json.ImmutableArrayHold));
        hash.AppendData(_parts[3].Of(snapshot.Link.History, json.ImmutableArrayLevelPoint));
        if (snapshot.Picture is { } picture)
        {
            hash.AppendData(_parts[4].Of(picture, picture, json.PictureNow));
        }

        Snapshot rest = snapshot with
        {
            Picture = null,
            Settings = null,
            Sky = snapshot.Sky is { } sky ? sky with { Track = [], Holds = [] } : null,
            Link = snapshot.Link with { History = [] },
        };
        hash.AppendData(JsonSerializer.SerializeToUtf8Bytes(rest, json.Snapshot));
        Count++;
    }

    /// <summary>The fingerprint so far, hexadecimal.</summary>
    public string Current() => Convert.ToHexStringLower(_hash.Value.GetCurrentHash());

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_hash.IsValueCreated)
        {
            _hash.Value.Dispose();
        }
    }

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
                _print = SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(value, json));
            }

            return _print;
        }
    }
}
