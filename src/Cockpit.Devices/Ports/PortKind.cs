namespace Cockpit.Devices.Ports;

/// <summary>How bytes come and go: the kind of a <see cref="PortAddress"/>.</summary>
public enum PortKind
{
    /// <summary>A TCP server that we connect to.</summary>
    TcpClient = 0,

    /// <summary>A TCP port of ours that the sender connects to.</summary>
    TcpListener = 1,

    /// <summary>Datagrams to a UDP port of ours.</summary>
    Udp = 2,

    /// <summary>Standard input.</summary>
    StandardInput = 3,

    /// <summary>A file that grows.</summary>
    File = 4,
}
