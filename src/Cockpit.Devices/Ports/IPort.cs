namespace Cockpit.Devices.Ports;

/// <summary>A place that bytes come from; it may come and go.</summary>
public interface IPort : IDisposable
{
    /// <summary>Its address, for people.</summary>
    string Where { get; }

    /// <summary>Takes what no other program can have at the same time (a listening port); does nothing where there is no such thing.</summary>
    /// <exception cref="PortException">It cannot be had; the program should say so and end.</exception>
    void Open();

    /// <summary>Brings bytes, and connects again whenever it is cut off, until it is told to stop.</summary>
    /// <param name="listener">Told what happens, one call at a time.</param>
    /// <param name="stop">Ends the port.</param>
    /// <exception cref="OperationCanceledException">It was told to stop; the only way it ends.</exception>
    Task RunAsync(IPortListener listener, CancellationToken stop);
}

/// <summary>Who takes what a port brings.</summary>
public interface IPortListener
{
    /// <summary>Bytes may come now; what was unfinished before belongs to an earlier connection.</summary>
    /// <param name="where">The address with what is known of the other side, for people.</param>
    /// <param name="startsInside">The first bytes may be the rest of a record that began earlier.</param>
    void Connected(string where, bool startsInside = false);

    /// <summary>No more bytes for now; it is tried again. Not repeated while the reason stays the same.</summary>
    /// <param name="reason">What happened, one sentence.</param>
    void Lost(string reason);

    /// <summary>Bytes came.</summary>
    /// <param name="bytes">Valid during the call only.</param>
    /// <param name="wholeRecords">The bytes end at the end of a record (a datagram).</param>
    void Received(ReadOnlySpan<byte> bytes, bool wholeRecords = false);
}

/// <summary>A port that cannot be had at all; the message is one sentence for the person who gave the address.</summary>
public sealed class PortException : IOException
{
    /// <summary>Makes it.</summary>
    public PortException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
