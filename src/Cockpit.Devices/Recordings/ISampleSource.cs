using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>Where samples come from, one after the other: a recording, a growing one, a sender.</summary>
public interface ISampleSource : IAsyncDisposable
{
    /// <summary>What the samples are.</summary>
    SampleLayout Layout { get; }

    /// <summary>How far it is, of what is known to come, in bytes; null where nobody knows.</summary>
    (long Done, long Whole)? Progress { get; }

    /// <summary>Brings the next whole samples.</summary>
    /// <param name="buffer">Written.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <returns>What came; no bytes = it is over.</returns>
    ValueTask<SamplesRead> ReadAsync(Memory<byte> buffer, CancellationToken stop);
}

/// <summary>What one reading brought.</summary>
/// <param name="Bytes">Bytes of whole samples; 0 = it is over.</param>
/// <param name="Missing">Samples that are missing before them; -1 = a new beginning, nobody knows.</param>
public readonly record struct SamplesRead(int Bytes, long Missing = 0);
