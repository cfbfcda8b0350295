namespace Cockpit.Devices.Outlets;

/// <summary>Where a simulated sender sends to.</summary>
public interface IOutlet : IAsyncDisposable
{
    /// <summary>The address, for people.</summary>
    string Where { get; }

    /// <summary>Stands ready: listens, or connects when the first line is sent. May be called again after <see cref="Leave"/>.</summary>
    /// <exception cref="Ports.PortException">The place cannot be had.</exception>
    void Appear();

    /// <summary>Sends; what nobody takes is lost, as with a real sender.</summary>
    ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop);

    /// <summary>Is gone, without a word, as if the program had ended.</summary>
    void Leave();
}
