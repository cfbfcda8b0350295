using System.Buffers;
using System.Globalization;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>Where bytes come from or go to, as a person writes it.</summary>
/// <param name="Kind">What kind of place.</param>
/// <param name="Host">Host of TCP and UDP; empty = loopback only, for what listens.</param>
/// <param name="Port">Port of TCP and UDP, 1 to 65535.</param>
/// <param name="Path">Path of a file.</param>
/// <param name="FromStart">Of a file that is there already, read also what it holds.</param>
public sealed record PortAddress(PortKind Kind, string Host = "", int Port = 0, string Path = "", bool FromStart = false)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, file:PATH or - (standard input)";

    /// <summary>Longest name of a host: RFC 1035, 2.3.4.</summary>
    private const int LongestHost = 255;

    private const string File = "file:";
    private const string Query = "?from=";

    private static readonly SearchValues<char> NeverInHost = SearchValues.Create(" /@?#[]");

    private static readonly (string Prefix, PortKind Kind)[] Sockets =
    [
        ("tcp://", PortKind.TcpClient), ("tcp-listen://", PortKind.TcpListener), ("udp://", PortKind.Udp),
    ];

    /// <summary>Reads an address.</summary>
    /// <param name="text">
    /// <c>tcp://HOST:PORT</c> connects; <c>tcp-listen://[HOST]:PORT</c> and <c>udp://[HOST]:PORT</c> listen, on the loopback address where
    /// no host is given (0.0.0.0 = every network of this computer); <c>file:PATH</c> follows a file from its present end, with
    /// <c>?from=start</c> from its start; <c>-</c> is standard input. An IPv6 address stands in brackets.
    /// </param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<PortAddress> Read(string text, string source)
    {
        if (text is "-")
        {
            return new PortAddress(PortKind.StandardInput);
        }

        if (text.StartsWith(File, StringComparison.Ordinal))
        {
            return ReadFile(text[File.Length..], source);
        }

        foreach ((string prefix, PortKind kind) in Sockets)
        {
            if (text.StartsWith(prefix, StringComparison.Ordinal))
            {
                return ReadSocket(text, prefix.Length, kind, source);
            }
        }

        return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not an address; write {Forms}");
    }

    /// <summary>Makes the port of this address; nothing is opened yet.</summary>
    /// <param name="time">What its waiting goes by.</param>
    public IPort MakePort(TimeProvider time) => Kind switch
    {
        PortKind.TcpClient => new TcpClientPort(Host, Port, time),
        PortKind.TcpListener => new TcpListenerPort(Host, Port, time),
        PortKind.Udp => new UdpPort(Host, Port, time),
        PortKind.File when PipePort.IsOne(Path) => new PipePort(Path, time),
        PortKind.File => new FilePort(Path, FromStart, time),
        _ => StreamPort.StandardInput(),
    };

    private static Parsed<PortAddress> ReadFile(string rest, string source)
    {
        int query = rest.LastIndexOf(Query, StringComparison.Ordinal);
        string path = query < 0 ? rest : rest[..query];
        string from = query < 0 ? "end" : rest[(query + Query.Length)..];
        if (path.Length == 0)
        {
            return new ParseError(source, 0, 0, "file: needs the path of a file, like file:/tmp/level.txt");
        }

        return from is "end" or "start"
            ? new PortAddress(PortKind.File, Path: path, FromStart: from is "start")
            : new ParseError(source, 0, 0, $"{Quoted.Of(from)} is not a place to read from; write ?from=start or ?from=end");
    }

    private static Parsed<PortAddress> ReadSocket(string text, int start, PortKind kind, string source)
    {
        string rest = text[start..].TrimEnd('/');
        int colon = rest.LastIndexOf(':');
        if (colon < 0)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} has no port; write {text[..start]}HOST:PORT");
        }

        string host = rest[..colon];
        bool bracketed = host.StartsWith('[') && host.EndsWith(']');
        host = bracketed ? host[1..^1] : host;
        if (host.Contains(':', StringComparison.Ordinal) != bracketed || host.AsSpan().ContainsAny(NeverInHost) || host.Length > LongestHost)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(rest.AsSpan(0, colon))} is not a host; write a name or an address, an IPv6 address in brackets");
        }

        if (host.Length == 0 && kind == PortKind.TcpClient)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} has no host; write tcp://HOST:PORT, or tcp-listen://:PORT to be connected to");
        }

        string port = rest[(colon + 1)..];
        return int.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= 65535
            ? new PortAddress(kind, host, number)
            : new ParseError(source, 0, 0, $"{Quoted.Of(port)} is not a port; write a number from 1 to 65535");
    }
}
