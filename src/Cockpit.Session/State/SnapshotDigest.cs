using System.Security.Cryptography;
using System.Text.Json;

namespace Cockpit.Session.State;

/// <summary>A fingerprint of a sequence of snapshots: two runs with the same fingerprint showed and sounded the same.</summary>
/// <remarks>Every field of every snapshot goes in; numbers in their shortest exact form, so one changed bit changes the fingerprint.</remarks>
public sealed class SnapshotDigest : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>How many snapshots went in.</summary>
    public long Count { get; private set; }

    /// <summary>Adds the next snapshot.</summary>
    public void Add(Snapshot snapshot)
    {
        _hash.AppendData(JsonSerializer.SerializeToUtf8Bytes(snapshot, SnapshotJson.Default.Snapshot));
        Count++;
    }

    /// <summary>The fingerprint so far, hexadecimal.</summary>
    public string Current() => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();
}
