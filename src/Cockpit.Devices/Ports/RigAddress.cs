using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>A server of the Hamlib network protocol, as a person writes it.</summary>
/// <param name="Host">Its name or address.</param>
/// <param name="Port">Its port.</param>
public sealed record RigAddress(string Host, int Port)
{
    private const string Prefix = "rig://";
    private const string Socket = "tcp://";

    /// <summary>Host and port, for people.</summary>
    public string Where => "rig " + SocketWords.Place(Host, Port);

    /// <summary>Whether an address is one of a rig server.</summary>
    public static bool IsOne(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith(Prefix, StringComparison.Ordinal);
    }

    /// <summary>Reads an address.</summary>
    /// <param name="text"><c>rig://HOST:PORT</c>.</param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<RigAddress> Read(string text, string source)
    {
        if (!IsOne(text))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is no rig server; write rig://HOST:PORT, like rig://127.0.0.1:4532");
        }

        return PortAddress.Read(Socket + text[Prefix.Length..], source).Try(out PortAddress? where, out ParseError? error)
            ? new RigAddress(where.Host, where.Port)
            : error with { Message = error.Message.Replace(Socket, Prefix, StringComparison.Ordinal).Replace(", or tcp-listen://:PORT to be connected to", "", StringComparison.Ordinal) };
    }
}
