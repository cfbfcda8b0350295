using System.Buffers;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>What kind of place a feed comes from.</summary>
public enum FeedKind
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

/// <summary>Where a feed comes from, as a person writes it.</summary>
/// <param name="Kind">What kind of place.</param>
/// <param name="Host">Host of TCP and UDP; empty = loopback only, for what listens.</param>
/// <param name="Port">Port of TCP and UDP, 1 to 65535.</param>
/// <param name="Path">Path of a file.</param>
/// <param name="FromStart">Of a file that is there already, read also what it holds.</param>
public sealed record FeedAddress(FeedKind Kind, string Host = "", int Port = 0, string Path = "", bool FromStart = false)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, file:PATH or - (standard input)";

    private const string File = "file:";
    private const string Query = "?from=";

    private static readonly SearchValues<char> NeverInHost = SearchValues.Create(" /@?#[]");

    private static readonly (string Prefix, FeedKind Kind)[] Sockets =
    [
        ("tcp://", FeedKind.TcpClient), ("tcp-listen://", FeedKind.TcpListener), ("udp://", FeedKind.Udp),
    ];

    /// <summary>Reads an address.</summary>
    /// <param name="text">
    /// <c>tcp://HOST:PORT</c> connects; <c>tcp-listen://[HOST]:PORT</c> and <c>udp://[HOST]:PORT</c> listen, on the loopback address where
    /// no host is given (0.0.0.0 = every network of this computer); <c>file:PATH</c> follows a file from its present end, with
    /// <c>?from=start</c> from its start; <c>-</c> is standard input. An IPv6 address stands in brackets.
    /// </param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<FeedAddress> Read(string text, string source)
    {
        if (text is "-")
        {
            return new FeedAddress(FeedKind.StandardInput);
        }

        if (text.StartsWith(File, StringComparison.Ordinal))
        {
            return ReadFile(text[File.Length..], source);
        }

        foreach ((string prefix, FeedKind kind) in Sockets)
        {
            if (text.StartsWith(prefix, StringComparison.Ordinal))
            {
                return ReadSocket(text, prefix.Length, kind, source);
            }
        }

        return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not an address; write {Forms}");
    }

    /// <summary>Makes the port of this address; nothing is opened yet.</summary>
    /// <exception cref="PortException">Standard input is the keyboard.</exception>
    internal IPort MakePort(TimeProvider time) => Kind switch
    {
        FeedKind.TcpClient => new TcpClientPort(Host, Port, time),
        FeedKind.TcpListener => new TcpListenerPort(Host, Port, time),
        FeedKind.Udp => new UdpPort(Host, Port, time),
        FeedKind.File => new FilePort(Path, FromStart, time),
        _ => StreamPort.StandardInput(),
    };

    private static Parsed<FeedAddress> ReadFile(string rest, string source)
    {
        int query = rest.LastIndexOf(Query, StringComparison.Ordinal);
        string path = query < 0 ? rest : rest[..query];
        string from = query < 0 ? "end" : rest[(query + Query.Length)..];
        if (path.Length == 0)
        {
            return new ParseError(source, 0, 0, "file: needs the path of a file, like file:/tmp/level.txt");
        }

        return from is "end" or "start"
            ? new FeedAddress(FeedKind.File, Path: path, FromStart: from is "start")
            : new ParseError(source, 0, 0, $"{Quoted.Of(from)} is not a place to read from; write ?from=start or ?from=end");
    }

    private static Parsed<FeedAddress> ReadSocket(string text, int start, FeedKind kind, string source)
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
        if (host.Contains(':', StringComparison.Ordinal) != bracketed || host.AsSpan().ContainsAny(NeverInHost))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(rest.AsSpan(0, colon))} is not a host; write a name or an address, an IPv6 address in brackets");
        }

        if (host.Length == 0 && kind == FeedKind.TcpClient)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} has no host; write tcp://HOST:PORT, or tcp-listen://:PORT to be connected to");
        }

        string port = rest[(colon + 1)..];
        return int.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= 65535
            ? new FeedAddress(kind, host, number)
            : new ParseError(source, 0, 0, $"{Quoted.Of(port)} is not a port; write a number from 1 to 65535");
    }
}
