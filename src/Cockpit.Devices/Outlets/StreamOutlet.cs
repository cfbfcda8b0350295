namespace Cockpit.Devices.Outlets;

/// <summary>Writes to a stream: standard output, or a file that grows.</summary>
/// <param name="stream">Where the lines go; the outlet owns it.</param>
/// <param name="name">What it is called, for people.</param>
public sealed class StreamOutlet(Stream stream, string name) : IOutlet
{
    private bool _here;

    /// <inheritdoc/>
    public string Where => name;

    /// <inheritdoc/>
    public void Appear() => _here = true;

    /// <inheritdoc/>
    public async ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop)
    {
        if (_here)
        {
            await stream.WriteAsync(bytes, stop);
            await stream.FlushAsync(stop);
        }
    }

    /// <inheritdoc/>
    public void Leave() => _here = false;

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => stream.DisposeAsync();
}
