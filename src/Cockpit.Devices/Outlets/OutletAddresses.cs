using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Outlets;

/// <summary>The outlets behind the addresses that people write; the other ends of <see cref="PortAddress"/>.</summary>
public static class OutletAddresses
{
    private const string Server = "tcp://";
    private const string Listener = "tcp-listen://";

    /// <summary>A server that receivers connect to.</summary>
    /// <param name="text"><c>tcp://[HOST]:PORT</c>; the loopback address where no host is given.</param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<IOutlet> Listening(string text, string source)
    {
        string address = text.StartsWith(Server, StringComparison.Ordinal) ? Listener + text[Server.Length..] : text;
        if (!PortAddress.Read(address, source).Try(out PortAddress? where, out ParseError? error))
        {
            return error;
        }

        return where.Kind == PortKind.TcpListener
            ? new TcpServerOutlet(where.Host, where.Port)
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} cannot be listened at; write tcp://:PORT");
    }

    /// <summary>A place that lines are sent to.</summary>
    /// <param name="text"><c>tcp://HOST:PORT</c>, <c>udp://[HOST]:PORT</c> (the loopback address where no host is given), <c>file:PATH</c> or <c>-</c>.</param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<IOutlet> Sending(string text, string source)
    {
        if (!PortAddress.Read(text, source).Try(out PortAddress? where, out ParseError? error))
        {
            return error;
        }

        try
        {
            return where.Kind switch
            {
                PortKind.TcpClient => new TcpClientOutlet(where.Host, where.Port),
                PortKind.Udp => new UdpOutlet(where.Host, where.Port),
                PortKind.StandardInput => new StreamOutlet(Console.OpenStandardOutput(), "standard output"),
                PortKind.File => new StreamOutlet(new FileStream(where.Path, FileMode.Append, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete), "file " + where.Path),
                _ => new ParseError(source, 0, 0, $"{Quoted.Of(text)} cannot be sent to; to be connected to, use --listen tcp://:PORT"),
            };
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new ParseError(source, 0, 0, $"{where.Path} cannot be written ({FileWords.Of(failure)}); give another file");
        }
    }
}
